"""Says on a page what texts call by the names of files and keys: "the timetable, row 4"."""

import re
from collections.abc import Mapping
from typing import Final

from wholeball.rulebook.words.lookup import ALL

FILES: Final[Mapping[str, str]] = {
    "absences.csv": "the list of absences",
    "alone.csv": "the list of players without a team",
    "blocks.csv": "the list of blocks",
    "bracket.csv": "the bracket as drawn",
    "closures.csv": "the list of days off",
    "crews.csv": "the list of crews",
    "discipline.csv": "the list of decisions",
    "divisions.csv": "the list of divisions",
    "fees.csv": "the list of fees",
    "fields.csv": "the list of fields",
    "not_cleared.csv": "the list of clearances",
    "notices.csv": "the list of notices",
    "officials.csv": "the list of officials",
    "people.csv": "the list of people",
    "planning.toml": "the season's plan",
    "published.csv": "the published table",
    "results.csv": "the list of results",
    "rosters.csv": "the list of players",
    "rulebook.toml": "the rulebook",
    "rulings.csv": "the list of rulings",
    "season.toml": "the season's settings",
    "sign_ups.csv": "the list of sign-ups",
    "sites.csv": "the list of sites",
    "slots.csv": "the list of times to play",
    "teams.csv": "the list of teams",
    "timetable.csv": "the timetable",
}
"""What people call each file of a season folder."""
_BESIDE: Final[Mapping[str, str]] = {
    "README.md": "the notes of the season",
    "id-key-check.txt": "the check of the key for student ids",
}
"""What stands beside them and no reader of seasons asks for."""
_NAMES: Final = {**FILES, **_BESIDE}
_REPLACED: Final = "a timetable that was replaced"
_LIST: Final = "the list of"
_OF_A_GAME: Final = {"games": "game", "cards": "the scorecard of game", "editions": "edition"}
_WHOLE: Final = {"games": "the games", "cards": "the scorecards", "editions": "the editions"}
_FILE: Final = re.compile(
    r"(?P<start>^)?(?P<inside> of )?(?P<none>\bno )?(?<![\w/.-])(?:"
    rf"(?P<file>{'|'.join(map(re.escape, _NAMES))})"
    r"|(?P<replaced>timetables/[\w-]+\.csv)"
    r"|reports/(?P<about>[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}?)\.[1-9][0-9]{0,4}\.toml"
    r"|(?P<folder>games|cards|editions)/"
    r"(?:(?P<of>[A-Za-z0-9][A-Za-z0-9 ._-]{0,79}?)\.(?:jsonl|toml))?"
    r")(?!\w)(?: line \d+)?(?P<row> row \d+)?",
    re.MULTILINE,
)
_KEY: Final = re.compile(
    r"(?P<table>\[(?P<path>[a-z_]+(?:\.[a-z_]+)*)\]|\[\[(?P<list>[a-z_]+)\]\])"
    r"(?: (?P<key>[a-z_]+(?: item \d+)?(?:\.[a-z_]+)*))?"
)


def spoken(text: str) -> str:
    """Return a text with what people say for files, their rows, and keys of the rulebook.

    The lines of files that nobody sees on a page are left out.
    """
    return _KEY.sub(_spoken_key, _FILE.sub(_spoken_file, text))


def _spoken_file(found: re.Match[str]) -> str:
    if found["file"] is not None:
        name = _NAMES[found["file"]]
    elif found["replaced"] is not None:
        name = _REPLACED
    elif found["about"] is not None:
        name = f"a report about game {found['about']}"
    elif found["of"] is not None:
        name = f"{_OF_A_GAME[found['folder']]} {found['of']}"
    else:
        name = _WHOLE[found["folder"]]
    before = found["inside"] or ""
    if before and name.startswith(_LIST):
        before = " in "
    if found["none"]:
        name = f"no {name.removeprefix('the ')}"
    row = f",{found['row']}" if found["row"] else ""
    says = f"{before}{name}{row}"
    return says if found["start"] is None else f"{says[0].upper()}{says[1:]}"


def _spoken_key(found: re.Match[str]) -> str:
    """Return "mercy rule, ladder step 1, minutes left" for "[mercy] ladder item 1.minutes_left"."""
    path = found["path"]
    if path is not None and path not in ALL:
        return found[0]
    title = found["list"].replace("_", " ") if path is None else ALL[path].title
    key = (found["key"] or "").replace("ladder item", "ladder step")
    parts = [part.replace("_", " ") for part in key.split(".") if part]
    return ", ".join((f"{title[0].lower()}{title[1:]}", *parts))
