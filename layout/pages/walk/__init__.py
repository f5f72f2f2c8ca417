"""The pages of a walk."""
