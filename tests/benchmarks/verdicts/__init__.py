"""How many verdicts a second, beside other programs on the same puzzles; see `__main__`."""
