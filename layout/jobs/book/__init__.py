"""The job of a book."""
