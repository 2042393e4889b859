"""Puts other play-off games into planning.toml; comments between them, and all else, stay."""

import io
from collections.abc import Mapping, Sequence
from typing import Any, Final, TypeAlias

from wholeball.files.planning_edit import with_amount
from wholeball.files.planning_toml import FILE
from wholeball.files.toml_edit import behind_mark
from wholeball.files.toml_records import Record, TomlRecords, inline, line_end

Wanted: TypeAlias = tuple[int | None, Mapping[str, Any]]
"""A game as it is to stand, with the place from 0 of the one that it was, None where it is new."""
_GAMES: Final = TomlRecords(key="play_offs", what="The play-offs", file=FILE)


def with_play_offs(data: bytes, wanted: Sequence[Wanted]) -> bytes:
    """Return planning.toml with these play-off games, in this order, and no others.

    A game that stays where it is between the others keeps its lines, and what they say beside it.

    Raises:
        WholeballError: the file does not let it be written without the rest.
    """
    return behind_mark(data, lambda text: _written(text, _in_place(wanted)))


def _in_place(wanted: Sequence[Wanted]) -> list[Wanted]:
    """Return the games, those that move before others that stay as new ones."""
    last = -1
    found: list[Wanted] = []
    for was, record in wanted:
        stays = was is not None and was > last
        last = was if was is not None and stays else last
        found.append((was if stays else None, record))
    return found


def _written(data: bytes, wanted: list[Wanted]) -> bytes:
    data = data or with_amount(b"", games_each=None, meetings=1)
    if _GAMES.in_one_list(data):
        text = _GAMES.edited(data, lambda games: _set(games, wanted, of=inline))
    else:
        text = _as_tables(data, wanted).encode()
    return _GAMES.judged(data, text, lambda games: _set(games, wanted, of=dict))


def _set(games: list[Record], wanted: list[Wanted], *, of: Any) -> None:
    """Put the games into a list in place, new ones as `of` makes them."""
    stay = {was for was, _ in wanted}
    for index in reversed(range(len(games))):
        if index not in stay:
            del games[index]
    for at, (was, record) in enumerate(wanted):
        if was is None:
            games.insert(at, of(record))
        else:
            _update(games[at], record)


def _update(game: Record, record: Mapping[str, Any]) -> None:
    for name, value in record.items():
        if game.get(name) != value:
            game[name] = value


def _as_tables(data: bytes, wanted: list[Wanted]) -> str:
    """Return the text with each game as a table of its own, the first ones at its end."""
    old = _GAMES.said(data)
    end = line_end(data)
    if not old:
        new = [f"{end}{_GAMES.table(record, end)}" for _, record in wanted]
        return "".join([_ended(data.decode(), end), *new]) if new else data.decode()
    return _Tables(data, old, end).text(wanted)


def _ended(text: str, end: str) -> str:
    return text if not text or text.endswith("\n") else f"{text}{end}"


class _Tables:
    """A text that has games, in pieces: the lines of each, and those between them."""

    def __init__(self, data: bytes, old: Sequence[Record], end: str) -> None:
        rows = list(io.StringIO(data.decode(), newline="\n"))
        spans = _GAMES.spans(data, range(len(old)))
        self._old = old
        self._end = end
        self._own = ["".join(rows[first:last]) for first, last in spans]
        edges = [0, *(edge for span in spans for edge in span), len(rows)]
        self._between = [
            rows[begin:end] for begin, end in zip(edges[::2], edges[1::2], strict=True)
        ]

    def text(self, wanted: list[Wanted]) -> str:
        """Return the text with the games that are wanted."""
        stay = {was: record for was, record in wanted if was is not None}
        new = _behind(wanted)
        begins, above = _parted(self._between[0])
        told = "".join(begins)
        told += "".join(f"{_GAMES.table(one, self._end)}{self._end}" for one in new.get(-1, ()))
        told += "".join(above)
        for index, after in enumerate(self._between[1:]):
            if index in stay:
                told += self._changed(index, stay[index])
            elif after and not after[0].strip() and (not told or told.endswith(self._end * 2)):
                after = after[1:]  # noqa: PLW2901 - one blank line between two games, not two
            for one in new.get(index, ()):
                told = f"{_ended(told, self._end)}{self._end}{_GAMES.table(one, self._end)}"
            told += "".join(after)
        return told

    def _changed(self, index: int, record: Mapping[str, Any]) -> str:
        own = self._own[index]
        if all(self._old[index].get(name) == value for name, value in record.items()):
            return own
        return _GAMES.edited(own.encode(), lambda games: _update(games[0], record)).decode()


def _behind(wanted: list[Wanted]) -> dict[int, list[Mapping[str, Any]]]:
    """Return the new games by the one that stays before them, -1 before the first."""
    found: dict[int, list[Mapping[str, Any]]] = {}
    last = -1
    for was, record in wanted:
        if was is None:
            found.setdefault(last, []).append(record)
        else:
            last = was
    return found


def _parted(rows: Sequence[str]) -> tuple[Sequence[str], Sequence[str]]:
    """Return lines, and apart the comments at their end, which belong to what follows."""
    at = len(rows)
    while at and rows[at - 1].lstrip().startswith("#"):
        at -= 1
    return rows[:at], rows[at:]
