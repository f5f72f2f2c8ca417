"""Rules whose marks stand outside the board."""
