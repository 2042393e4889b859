"""Holds the pages of coordinators and of those who work a night."""
