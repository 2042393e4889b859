"""Holds the rulebooks that a season may start from."""
