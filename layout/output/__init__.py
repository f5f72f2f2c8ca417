"""Finished files take their places whole or not at all, also where a run is killed on the way."""
