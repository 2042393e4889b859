"""Declares the articles, in the order of the Laws."""
