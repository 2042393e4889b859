"""States what the rules of a league are, as typed values with their articles."""
