"""What is known on a sheet: pencil marks, and what marks and houses say of them."""
