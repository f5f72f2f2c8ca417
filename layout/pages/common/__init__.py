"""What pages of every job share."""
