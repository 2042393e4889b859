"""Holds the pages that belong to no room: the account, the first run."""
