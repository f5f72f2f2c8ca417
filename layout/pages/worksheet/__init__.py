"""The pages of a worksheet, and of its key."""
