"""What comes of a digit that is supposed, one by one and all at once."""
