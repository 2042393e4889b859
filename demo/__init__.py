"""Is the demonstration: a whole invented season, played by the real commands, held to its own truth.

What simulates the season and what says how it came out share no code with Wholeball: their
modules import nothing of it (tests/test_demo.py holds them to that).
"""
