"""What a puzzle means: manifests, boards, rules and proofs. Knows nothing of how it looks."""

__version__ = "0.5.0"
