"""Reads what stands in a season under a name, puts something else there, or takes it out."""

import hashlib
from collections.abc import Sequence
from typing import NamedTuple

from wholeball.kernel.faults import WholeballError
from wholeball.store.changes import Line
from wholeball.store.kinds import Kind, game_of, kind_of
from wholeball.store.logs import log_in, put_log
from wholeball.store.models import Edition, ReplacedTimetable, Season, SeasonFile
from wholeball.store.rows import drop_rows, put_rows, sheet_in
from wholeball.store.table_text import Sheet, sheet_of, text_of


class Put(NamedTuple):
    """The lines of a file before and after a write; those of a log are not said."""

    before: Sequence[Line]
    after: Sequence[Line]


def content(file: SeasonFile) -> bytes:
    """Return what stands under a name, as the bytes of a file. At most 1 query."""
    match kind_of(file.name):
        case Kind.TABLE:
            return text_of(sheet_in(file), file=file.name)
        case Kind.LOG:
            return log_in(file.season_id, game_of(file.name))
        case Kind.EDITION:
            return Edition.objects.get(season=file.season_id, is_current=True).text.encode()
        case Kind.REPLACED:
            kept = ReplacedTimetable.objects.get(season=file.season_id, name=file.name)
            return kept.text.encode()
        case Kind.TEXT:
            return file.text.encode()


def put(season: Season, file: SeasonFile, data: bytes) -> Put:
    """Put something under a name, which is new where `file` is not saved yet.

    Raises:
        WholeballError: it is nothing that can be kept under this name.
    """
    match kind_of(file.name):
        case Kind.TABLE:
            return _put_table(season, file, data)
        case Kind.LOG:
            put_log(season, file.name, game_of(file.name), data)
            file.save()
            return Put((), ())
        case Kind.EDITION:
            return _put_edition(season, file, data)
        case Kind.REPLACED:
            kept = {"text": _text(data, file.name)}
            ReplacedTimetable.objects.update_or_create(
                season=season, name=file.name, defaults=kept
            )
            file.save()
            return Put((), ())
        case Kind.TEXT:
            before, file.text = file.text, _text(data, file.name)
            file.save()
            return Put(_lines(before), _lines(file.text))


def take_out(season: Season, file: SeasonFile) -> Put:
    """Take out what stands under a name.

    Raises:
        WholeballError: it is a log, which is never taken out.
    """
    before: Sequence[Line] = ()
    match kind_of(file.name):
        case Kind.LOG:
            raise WholeballError(
                f"{file.name} cannot be taken out: what was recorded stays.",
                fix="Take entries back by entries that say so, or rule on the game.",
                code="changed",
            )
        case Kind.TABLE:
            before = _cells(sheet_in(file))
            drop_rows(season, file.name)
        case Kind.EDITION:
            before = _lines(content(file).decode())
            Edition.objects.filter(season=season).update(is_current=False)
        case Kind.REPLACED:
            ReplacedTimetable.objects.filter(season=season, name=file.name).delete()
        case Kind.TEXT:
            before = _lines(file.text)
    file.delete()
    return Put(before, ())


def lines_of(file: SeasonFile) -> Sequence[Line]:
    """Return the lines of a table or a text as changes count them. At most 1 query."""
    if kind_of(file.name) is Kind.TABLE:
        return _cells(sheet_in(file))
    return _lines(content(file).decode())


def _put_table(season: Season, file: SeasonFile, data: bytes) -> Put:
    new = sheet_of(data, file=file.name)
    old = sheet_in(file).rows if file.pk else ()
    put_rows(season, file.name, old, new)
    file.columns, file.head_row = " ".join(new.columns), new.head_row
    file.save()
    return Put([cells for _, cells in old], _cells(new))


def _put_edition(season: Season, file: SeasonFile, data: bytes) -> Put:
    """Keep a rulebook as a new edition, unless it is the one that counts."""
    text = _text(data, file.name)
    editions = Edition.objects.filter(season=season)
    last = editions.order_by("-number").first()
    current = next(iter(editions.filter(is_current=True)), None)
    before = "" if current is None else current.text
    if current is None or before != text:
        editions.filter(is_current=True).update(is_current=False)
        Edition.objects.create(
            season=season,
            number=1 if last is None else last.number + 1,
            text=text,
            digest=hashlib.sha256(data).hexdigest(),
        )
    file.save()
    return Put(_lines(before), _lines(text))


def _text(data: bytes, name: str) -> str:
    try:
        text = data.decode()
    except UnicodeDecodeError as error:
        raise WholeballError(
            f"{name} cannot be kept: it is no text in UTF-8.",
            fix="Save it in UTF-8, or leave it out.",
            code="encoding",
        ) from error
    if "\0" in text:
        raise WholeballError(
            f"{name} cannot be kept: it holds a NUL.",
            fix="Save it as plain text, or leave it out.",
            code="control_char",
        )
    return text


def _lines(text: str) -> list[str]:
    return text.splitlines(keepends=True)


def _cells(sheet: Sheet) -> list[tuple[str, ...]]:
    return [cells for _, cells in sheet.rows]
