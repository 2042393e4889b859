"""Computes what a game came to from what was recorded of it."""
