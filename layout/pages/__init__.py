"""Pages: what stands on each kind of them, and how they become a book."""
