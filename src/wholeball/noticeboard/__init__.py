"""Holds the pages that players and the public may see."""
