"""Answers what is asked of this room: parse, call one use case, render."""
