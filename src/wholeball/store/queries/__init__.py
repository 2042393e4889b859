"""Asks the database named questions, each of which states what it costs."""
