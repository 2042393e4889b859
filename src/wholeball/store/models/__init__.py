"""Says which rows the database has."""

from wholeball.store.models.account import Account

__all__ = ["Account"]
