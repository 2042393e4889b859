"""Puts names of games, teams and people into addresses, whatever signs they have."""

from typing import Final

from django.urls import register_converter

_ENCODED: Final = (("%", "%25"), ("/", "%2F"))


class NameConverter:
    """Takes a name as one part of an address; its own / and % are written as codes."""

    regex = "[^/]+"

    def to_python(self, value: str) -> str:
        """Return the name that an address has."""
        for sign, code in reversed(_ENCODED):
            value = value.replace(code, sign)
        return value

    def to_url(self, value: str) -> str:
        """Return a name as an address has it."""
        for sign, code in _ENCODED:
            value = value.replace(sign, code)
        return value


class DayConverter:
    """Takes a day as 2026-10-13; what only looks like one is left to the view."""

    regex = "[0-9]{4}-[0-9]{2}-[0-9]{2}"

    def to_python(self, value: str) -> str:
        """Return the day as it stands."""
        return value

    def to_url(self, value: object) -> str:
        """Return a day as an address has it."""
        return str(value)


def register() -> None:
    """Let addresses use both, as name and day."""
    register_converter(NameConverter, "name")
    register_converter(DayConverter, "day")
