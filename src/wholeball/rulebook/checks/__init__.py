"""Asks which values of a rulebook cannot all be meant, one question a function."""
