"""Reads a TOML file of a season as far as its version, and finds what nobody can see in it."""

import unicodedata
from typing import Any

from wholeball.kernel.faults import Fault
from wholeball.kernel.lines import lines
from wholeball.kernel.refusals import Schema, Source, hidden_faults, refuse_version
from wholeball.kernel.toml import decode, read_toml


def read_own_toml(
    data: bytes, *, file: str, reads: int, schema: Schema
) -> tuple[dict[str, Any], Source, list[Fault]]:
    """Return the values of a file, where each stands, and the faults of its texts.

    Names are composed (NFC), as those of the tables are.

    Raises:
        InputFaults: one fault of the file as such, or a version that is not the one read.
    """
    text = unicodedata.normalize("NFC", decode(data, file=file))
    said = read_toml(text.encode(), file=file)
    source = Source(file, lines(text))
    refuse_version(said, reads=reads, source=lambda: source)
    return said, source, hidden_faults(said, source, schema)
