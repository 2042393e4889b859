"""Measures speed, as ratios to a named reference in the same run."""
