"""Lists the addresses of the desk, one file a group of pages."""
