"""Keeps a league's rules in one rulebook and computes everything else from it."""

__version__ = "0.1.0"
