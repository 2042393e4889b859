"""Declares the facts, in the order in which they are asked."""
