"""What is read off a finished walk: its grade, its steps that count, what it does without."""
