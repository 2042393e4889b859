"""Does one thing a person asked for, a verb a file."""
