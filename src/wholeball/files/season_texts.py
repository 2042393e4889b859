"""Gathers every text of a season's record, or unpacks them, within bounds; and packs them."""

import io
import re
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.files.archive import (
    DAMAGED,
    MOST_PACKED,
    MOST_RATIO,
    MOST_UNPACKED,
    is_outside,
    refused,
)
from wholeball.kernel.refusals import toml_text
from wholeball.league.record import LeagueRecord
from wholeball.league.texts import Texts

MOST_FILES: Final = 3_000
"""Files of a season: its tables, and a log and a scorecard for each of its games."""
FOLDERS: Final = ("cards", "editions", "games", "reports", "timetables")
_BELONGS: Final = re.compile(
    r"[^/.][^/]*\.(csv|toml|md|txt)|(cards|editions|reports)/[^/.][^/]*\.toml|games/[^/.][^/]*\.jsonl"
    r"|timetables/[^/.][^/]*\.csv"
)
_THEIR_OWN: Final = ("__MACOSX/", "Thumbs.db", "desktop.ini")
_WHEN: Final = (2000, 1, 1, 0, 0, 0)
_ASK: Final = "Do not open it; ask whoever sent it."


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathered:
    """The texts of a season, and the names of files that are none of them."""

    texts: Texts
    left_out: tuple[str, ...]


def gathered(record: LeagueRecord) -> Gathered:
    """Return every text that a record keeps, timetables that were replaced among them.

    Raises:
        InputFaults: there are more files, or more bytes, than a season has.
        WholeballError: there is no such record.
        OSError: one of them cannot be read.
    """
    record.refuse_missing()
    texts: dict[str, bytes] = {}
    left_out = []
    room = MOST_UNPACKED
    for name in _names(record):
        if not _BELONGS.fullmatch(name):
            left_out.append(name)
            continue
        if len(texts) == MOST_FILES:
            says = f"it holds more than {MOST_FILES:,} files."
            raise refused("limits", record.place, says, "Name the folder of one season.")
        texts[name] = record.read(name, room)
        room -= len(texts[name])
        if room < 0:
            says = f"its files have more than {MOST_UNPACKED:,} bytes."
            raise refused("limits", record.place, says, "Name the folder of one season.")
    return Gathered(texts=Texts(place=record.place, texts=texts), left_out=tuple(left_out))


def unpacked(data: bytes, *, file: str) -> Gathered:
    """Return the texts that a ZIP archive packs; a folder round all of them is passed over.

    Nothing is unpacked before its stated sizes are within the bounds, and no more is unpacked
    of a file than is stated.

    Raises:
        InputFaults: limits, path, zip_bomb, or syntax where it is damaged.
    """
    if len(data) > MOST_PACKED:
        says = f"the file has more than {MOST_PACKED:,} bytes."
        raise refused("limits", file, says, "Pack the folder of one season.")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            members = [one for one in archive.infolist() if not one.is_dir()]
            _bound(members, packed=len(data), file=file)
            read = {one.filename: archive.read(one) for one in members}
    except DAMAGED as error:
        says = "the archive is damaged, or has a password."
        raise refused("syntax", file, says, "Pack it again, without a password.") from error
    bare = _without_folder(read)
    texts = {name: text for name, text in bare.items() if _BELONGS.fullmatch(name)}
    return Gathered(
        texts=Texts(place=file, texts=texts),
        left_out=tuple(sorted(bare.keys() - texts.keys())),
    )


def packed(texts: Mapping[str, bytes]) -> bytes:
    """Return texts as a ZIP archive; the same texts are the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in sorted(texts):
            archive.writestr(zipfile.ZipInfo(name, _WHEN), texts[name], zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _names(record: LeagueRecord) -> Iterator[str]:
    for name in record.names(""):
        if name in FOLDERS:
            yield from (f"{name}/{one}" for one in record.names(name) if one[0] != ".")
        elif not name.startswith("."):
            yield name


def _bound(members: list[zipfile.ZipInfo], *, packed: int, file: str) -> None:
    if len(members) > MOST_FILES:
        says = f"the file packs {len(members):,} files; at most {MOST_FILES:,}."
        raise refused("limits", file, says, "Pack the folder of one season.")
    for member in members:
        if is_outside(member.filename):
            says = f"it packs {toml_text(member.filename)}, a path outside the archive."
            raise refused("path", file, says, _ASK)
    names = [member.filename for member in members]
    if len(set(names)) < len(names):
        raise refused("duplicate", file, "it packs two files of one name.", _ASK)
    size = sum(member.file_size for member in members)
    if size > MOST_UNPACKED or size > MOST_RATIO * packed:
        says = (
            f"{packed:,} bytes would unpack to {size:,}; at most {MOST_UNPACKED:,}, and "
            f"{MOST_RATIO} times the file."
        )
        raise refused("zip_bomb", file, says, _ASK)


def _without_folder(read: Mapping[str, bytes]) -> dict[str, bytes]:
    """Return files without the one folder that all of them are in, and without a system's own."""
    told = {
        name: data
        for name, data in read.items()
        if not name.startswith(_THEIR_OWN) and not name.rpartition("/")[2].startswith(".")
    }
    firsts = {name.partition("/")[0] for name in told}
    is_inside = len(firsts) == 1 and all("/" in name for name in told)
    if is_inside and not firsts & set(FOLDERS):
        return {name.partition("/")[2]: data for name, data in told.items()}
    return told
