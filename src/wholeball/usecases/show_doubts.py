"""Shows what a person should look at in a season: doubts and notes, by what they are about."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from typing import Final, Literal, TypeAlias, get_args

from wholeball.files.folder import read_folder
from wholeball.kernel.faults import Fault
from wholeball.kernel.identity import GameId
from wholeball.league.texts import LastingTexts
from wholeball.league.ways import Named, named_in
from wholeball.usecases.check_season import check_season
from wholeball.usecases.local_day import local_day

About: TypeAlias = Literal[
    "Games",
    "Calendar",
    "Absences",
    "Sign-ups",
    "Bracket",
    "Crews",
    "Rosters",
    "Suspensions",
    "Fees",
    "Rulebook",
    "Season",
]
"""What a remark is about, in the order in which a page lists them."""
_ABOUT: Final[dict[str, About]] = {
    "results.csv": "Games",
    "rulings.csv": "Games",
    "timetable.csv": "Calendar",
    "planning.toml": "Calendar",
    "slots.csv": "Calendar",
    "closures.csv": "Calendar",
    "blocks.csv": "Calendar",
    "absences.csv": "Absences",
    "sign_ups.csv": "Sign-ups",
    "alone.csv": "Sign-ups",
    "bracket.csv": "Bracket",
    "crews.csv": "Crews",
    "officials.csv": "Crews",
    "rosters.csv": "Rosters",
    "people.csv": "Rosters",
    "discipline.csv": "Suspensions",
    "not_cleared.csv": "Suspensions",
    "fees.csv": "Fees",
    "rulebook.toml": "Rulebook",
}
_LOGS: Final = ("games/", ".jsonl")


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """One thing to look at; `named` is what its cure says to do, `game` whose log it is about."""

    fault: Fault
    about: About
    named: Named | None
    game: GameId | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """All remarks about one matter, in the order in which they were found."""

    about: About
    remarks: tuple[Remark, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """What is to look at on a day: what is likely a mistake, and what is only worth a note."""

    day: date
    doubts: tuple[Group, ...]
    notes: tuple[Group, ...]

    @property
    def count(self) -> int:
        """How many doubts there are."""
        return sum(len(one.remarks) for one in self.doubts)


def show_doubts(record: LastingTexts, *, at: datetime, day: date | None = None) -> Doubts:
    """Return all that is to look at on a day, today otherwise; for staff only.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    on = day or local_day(read_folder(record), at)
    remarks = tuple(_remark(one) for one in _found(record, on))
    return Doubts(
        day=on,
        doubts=_groups(one for one in remarks if one.fault.level != "note"),
        notes=_groups(one for one in remarks if one.fault.level == "note"),
    )


def doubts_about(record: LastingTexts, game: GameId, *, at: datetime) -> tuple[Remark, ...]:
    """Return what is likely a mistake in the log of one game, but for its open questions.

    Who appeared though not eligible is among them however late it is found.

    Raises:
        InputFaults: everything that is wrong with the season.
    """
    remarks = map(_remark, _found(record, local_day(read_folder(record), at)))
    return tuple(one for one in remarks if one.game == game and _comes_first(one.fault))


def _comes_first(fault: Fault) -> bool:
    is_doubt = fault.level != "note" and fault.code != "open_questions"
    return is_doubt or fault.code == "ineligible"


def count_doubts(record: LastingTexts, on: date) -> int:
    """Return how many doubts there are on a day; they are looked for once for all who ask."""
    return sum(one.level != "note" for one in _found(record, on))


def _found(record: LastingTexts, on: date) -> tuple[Fault, ...]:
    return record.made.once(f"remarks on {on}", lambda: check_season(record, on=on).remarks)


def _groups(remarks: Iterable[Remark]) -> tuple[Group, ...]:
    found: dict[About, list[Remark]] = {about: [] for about in get_args(About)}
    for one in remarks:
        found[one.about].append(one)
    return tuple(
        Group(about=about, remarks=tuple(rows)) for about, rows in found.items() if rows
    )


def _remark(fault: Fault) -> Remark:
    file = fault.place.file
    start, end = _LOGS
    of_log = file.startswith(start) and file.endswith(end)
    return Remark(
        fault=fault,
        about="Games" if of_log else _ABOUT.get(file, "Season"),
        named=named_in(fault.cure),
        game=GameId(file.removeprefix(start).removesuffix(end)) if of_log else None,
    )
