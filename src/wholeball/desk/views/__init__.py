"""Answers the addresses of the desk, one file a kind of page."""
