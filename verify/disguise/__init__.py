"""The same puzzle in other clothes: its forms, its canonical text, its own symmetry."""
