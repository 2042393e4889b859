"""Holds the pages where officials learn the rules."""
