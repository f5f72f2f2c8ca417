"""One file a check of a finished file by itself: facts in, findings out."""
