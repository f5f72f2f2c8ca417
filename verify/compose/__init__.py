"""Sets puzzles: from a sketch with open ends to a puzzle with one answer that is as it is wanted.

A random answer, givens taken from it with the solver's help, given back where the walk needs one.
"""
