"""The solver's walk: pencil marks, techniques, steps, the grade."""
