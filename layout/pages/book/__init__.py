"""The pages of a book, in their order."""
