"""Rules whose marks are cells, their edges and corners, and groups of them."""
