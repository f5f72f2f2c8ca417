"""Certificates: why a puzzle has one answer, so that another program can check it."""
