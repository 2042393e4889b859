"""Turns results into tables, each place with its reason."""
