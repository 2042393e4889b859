"""Answers with a solver what the season and its plan ask."""
