"""What can't be drawn, told to the editor."""


class CannotDraw(Exception):  # noqa: N818 - what befell the picture, in the editor's words
    """Something that can't be drawn or set as it is; the message says what and why."""
