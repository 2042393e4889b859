"""Turns values into pages, pictures and sheets."""
