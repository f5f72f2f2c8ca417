"""A reader of finished files: what a press would refuse, and what pages say against their job.

It shares no code with what draws and writes: it reads boxes, fonts, colours, lines and letters
from the file alone, and what a puzzle means from `verify`.
"""
