"""Techniques: each a small function from the sheet to the steps that it sees there.

A technique finds *all* its steps on the sheet as it stands, none from another's outcome, so
that a puzzle in disguise is walked the same way.
"""
