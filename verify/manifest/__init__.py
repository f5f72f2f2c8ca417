"""Manifests: YAML text -> Puzzle, or every problem with its place; banks of lines; the schema."""
