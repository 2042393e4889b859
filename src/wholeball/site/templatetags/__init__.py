"""Holds the pieces that the pages of every room are made of."""
