"""Puts the site together: its settings, its addresses, its start-up checks, its entry point."""
