"""Whether a puzzle has no answer, one, or many: formula, propagation, verdict."""
