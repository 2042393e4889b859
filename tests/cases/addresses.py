"""Lists the addresses of a room by their names, those within others too."""

from collections.abc import Iterator

from django.urls import URLPattern, URLResolver


def names_in(patterns: list[URLPattern | URLResolver]) -> Iterator[str]:
    for one in patterns:
        if isinstance(one, URLResolver):
            yield from names_in(one.url_patterns)
        else:
            yield str(one.name)
