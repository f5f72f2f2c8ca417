"""Rules whose marks are lines through cells."""
