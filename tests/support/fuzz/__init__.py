"""Hostile files for every reader and every job, and whether Reglet keeps its manners."""
