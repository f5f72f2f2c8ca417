"""What all jobs share."""
