"""How a puzzle looks, and every file that is written for print."""
