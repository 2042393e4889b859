"""Holds the steps by which the tables came to be."""
