"""What several rules share."""
