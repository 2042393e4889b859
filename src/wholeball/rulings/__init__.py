"""Turns a situation into a ruling, by articles that are data, proven to be total."""
