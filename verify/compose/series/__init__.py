"""Series: whole banks to a plan, with shapes laid out from motifs."""
