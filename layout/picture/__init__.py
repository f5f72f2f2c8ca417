"""The drawing protocol: items in fixed places, and the writers that turn them into files."""
