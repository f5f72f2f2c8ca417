"""Motifs: shapes for series, laid out with symmetry, with space between them, without crossings."""
