"""Holds the editions of the Laws of the Game as data, each what changed since the one before."""
