"""Calls a team otherwise in every text of a season that names it, and tells which do."""

from collections.abc import Mapping, MutableMapping, MutableSequence
from functools import partial
from typing import Any, Final

from tomlkit.toml_document import TOMLDocument

from wholeball.files.other_cells import with_cells
from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.files.toml_edit import edited
from wholeball.league.player import person_called

_TEAMS: Final[Mapping[str, tuple[str, ...]]] = {
    TEAMS_FILE: ("team",),
    "absences.csv": ("team",),
    "bracket.csv": ("team",),
    "fees.csv": ("team",),
    "published.csv": ("team",),
    "results.csv": ("home", "away"),
    "rosters.csv": ("team",),
    "sign_ups.csv": ("team",),
    "timetable.csv": ("home", "away"),
}
"""The columns that hold teams, by their files."""
PERSONS: Final = ("discipline.csv", "not_cleared.csv", "officials.csv", "people.csv")
"""Files whose column `person` may hold TEAM: NAME."""
FILES: Final = (*_TEAMS, *PERSONS, SEASON_FILE, PLANNING_FILE)
"""Every file that may name a team."""


def renamed(texts: Mapping[str, bytes], old: str, new: str) -> dict[str, bytes]:
    """Return the texts that name a team, with another name in its place.

    Raises:
        WholeballError: a file names it where it cannot be changed without the rest.
    """
    found = {name: _renamed(name, data, old, new) for name, data in texts.items()}
    return {name: data for name, data in found.items() if data != texts[name]}


def naming(texts: Mapping[str, bytes], team: str) -> tuple[str, ...]:
    """Return the files that name a team, beside the list of teams itself."""
    return tuple(one for one in renamed(texts, team, f"{team}'") if one != TEAMS_FILE)


def _renamed(name: str, data: bytes, old: str, new: str) -> bytes:
    if name in _TEAMS:
        return with_cells(data, partial(_team_cells, _TEAMS[name], old, new))
    if name in PERSONS:
        return with_cells(
            data, lambda row: {"person": person_called(row.get("person", ""), old, new)}
        )
    change = {SEASON_FILE: _in_season, PLANNING_FILE: _in_planning}[name]
    return edited(data, partial(change, old, new), what="The name of a team", file=name)


def _team_cells(
    columns: tuple[str, ...], old: str, new: str, row: Mapping[str, str]
) -> dict[str, str]:
    """Return the cells of a row that change; team names are one whatever their capitals."""
    return {
        column: new for column in columns if row.get(column, "").casefold() == old.casefold()
    }


def _in_season(old: str, new: str, document: TOMLDocument) -> None:
    for deduction in document.get("deductions", ()):
        if deduction["team"] == old:
            deduction["team"] = new
    for lots in document.get("lots", ()):
        _in_list(lots["order"], old, new)
    _in_list(document.get("outside_ranking", []), old, new)
    points: MutableMapping[str, Any] = document.get("discipline_points", {})
    if old in points:
        points[new] = points.pop(old)


def _in_planning(old: str, new: str, document: TOMLDocument) -> None:
    for rule in document.get("rules", ()):
        _in_list(rule.get("teams", []), old, new)


def _in_list(names: MutableSequence[str], old: str, new: str) -> None:
    for index, name in enumerate(names):
        if name == old:
            names[index] = new
