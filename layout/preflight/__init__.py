"""A reader of finished files: what a press, a binder or a reader would refuse.

It shares no code with what draws and writes: boxes, fonts, colours, lines and letters are read
from the file alone.
"""
