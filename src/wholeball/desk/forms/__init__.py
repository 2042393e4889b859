"""Holds forms of the desk that more than their page should know."""
