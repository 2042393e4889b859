"""Describes the field of play as exact geometry."""
