"""Gives the files that are shipped with the package: styles, letters, licence, templates."""

from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Final

_PAGES: Final = (
    "wholeball.css",
    "WholeballText-Regular.woff2",
    "WholeballText-Bold.woff2",
    "WholeballText-LICENSE.txt",
)


def assets() -> dict[str, bytes]:
    """Return what a folder of pages needs beside the pages: each file by its path in there."""
    return {f"assets/{name}": asset(name).read_bytes() for name in _PAGES}


def asset(name: str) -> Traversable:
    """Return one shipped file, or the folder of all of them where the name is empty."""
    return _folder("assets").joinpath(name)


def template(name: str) -> bytes:
    """Return the source of one template."""
    return _folder("templates").joinpath(name).read_bytes()


def _folder(name: str) -> Traversable:
    return files("wholeball.reports").joinpath(name)
