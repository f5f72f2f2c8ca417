"""The job of a worksheet."""
