"""Writes numbers of a rulebook as people say them."""

from decimal import Decimal


def plain(amount: Decimal) -> str:
    """Return a number without idle noughts: "3.5", "3", "10"."""
    return f"{amount.normalize():f}"
