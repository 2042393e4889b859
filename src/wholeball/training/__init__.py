"""Turns rulings into what officials learn from: scenes, and the situations worth showing."""
