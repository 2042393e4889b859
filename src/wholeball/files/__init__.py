"""Reads and writes the season folder, plain TOML and CSV that a person keeps."""
