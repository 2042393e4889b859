"""Keeps facts as rows of a database, and says who may read which of them."""
