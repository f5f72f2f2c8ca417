"""All ways to fill a few cells, and what marks and ways strike."""
