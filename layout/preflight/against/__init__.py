"""A finished book against its job: grids found on pages, and held against puzzles and proofs."""
