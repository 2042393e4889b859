"""Independent ways to the same answers, written apart from the project's code."""
