"""Holds the small immutable values that every other room builds on."""
