"""Finds who a cell means: a person's code, or TEAM: NAME where that is one row of rosters.csv."""

from collections.abc import Iterable, Iterator
from typing import Final

from wholeball.files.row_faults import Known, Wrong
from wholeball.files.table import Line
from wholeball.kernel.faults import Level
from wholeball.kernel.identity import PersonId
from wholeball.kernel.nearest import nearest
from wholeball.kernel.refusals import toml_text
from wholeball.league.player import Rosters, person_of
from wholeball.rulebook.sentence import listed

_FEW_HINTS: Final = 3
_BETWEEN: Final = ": "


class KnownPersons(Known):
    """The persons that lists know, and what their rows in rosters.csv are called."""

    def __init__(self, codes: Iterable[str], rosters: Rosters) -> None:
        """Take the codes, and the rosters that say who has which."""
        self._codes = tuple(codes)
        super().__init__(self._codes, "A person may have left.", most=_FEW_HINTS)
        self._called: dict[str, dict[str, None]] = {}
        self._rows: dict[str, dict[PersonId, None]] = {}
        self._words: list[str] = []
        for team, players in rosters.items():
            for player in players:
                words = f"{team}{_BETWEEN}{player.name}"
                self._words.append(words)
                person = person_of(team, player)
                self._rows.setdefault(words.casefold(), {})[person] = None
                if player.person is not None:
                    called = self._called.setdefault(player.name.casefold(), {})
                    called[player.person] = None

    def fitting(self, cell: str) -> tuple[PersonId, ...]:
        """Return the persons whose row of a roster is called so; case does not matter."""
        return tuple(self._rows.get(cell.casefold(), ()))

    def hint(self, name: str) -> str:
        """Return the cure for a name that is looked for."""
        if _BETWEEN in name:
            best = nearest(name, self._words)
            return (
                f"Did you mean {best}?"
                if best
                else "Write the team and the name as rosters.csv has them, or the person's code."
            )
        match tuple(self._called.get(name.casefold(), ())):
            case (code,):
                return f"Write the code that rosters.csv has for that name: {code}."
            case ():
                best = nearest(name, self._codes)
                return f"Did you mean {best}?" if best else "Copy the code from rosters.csv."
            case codes:
                return (
                    f"{len(codes)} persons are called so: copy the right code from rosters.csv."
                )


def person_in(line: Line, persons: KnownPersons | None) -> PersonId:
    """Return who the person of a row is; what fits no row of a roster is taken for a code."""
    cell = line.need("person", str)
    fitting = () if persons is None else persons.fitting(cell)
    return fitting[0] if len(fitting) == 1 else PersonId(cell)


def wrong_person(line: Line, persons: KnownPersons | None) -> Iterator[Wrong]:
    """Find a person who cannot be told: TEAM: NAME of no row or of several; an unknown code.

    An unknown code is a doubt: who had it may have left.
    """
    cell = line.need("person", str)
    if persons is None:
        return
    fitting = persons.fitting(cell)
    if len(fitting) > 1:
        says = f"{toml_text(cell)} fits {len(fitting)} persons of rosters.csv."
        yield Wrong("person", "ambiguous", says, _which(cell, fitting))
    elif not fitting and cell not in persons:
        is_named = _BETWEEN in cell
        what = "fits no row" if is_named else "is no person"
        says = f"{toml_text(cell)} {what} of rosters.csv."
        level: Level = "fault" if is_named else "doubt"
        yield Wrong("person", "unknown_person", says, persons.meant(cell), level)


def _which(cell: str, fitting: tuple[PersonId, ...]) -> str:
    """Return the codes to choose from; a row without one is only called TEAM: NAME."""
    codes = tuple(one for one in fitting if one.casefold() != cell.casefold())
    if len(codes) == len(fitting):
        return f"Write the code of the one that is meant: {listed(codes, last='or')}."
    return f"Write the code {listed(codes, last='or')}, or give the other row a code too."
