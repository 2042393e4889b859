"""Declares every table of a rulebook: its keys, their bounds and what they mean."""
