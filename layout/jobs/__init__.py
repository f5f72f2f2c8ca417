"""Jobs: what is printed, read from a job file and made in one go."""
