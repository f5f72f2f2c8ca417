"""A board as a picture: its grid, its marks, its digits, and a step of a walk."""
