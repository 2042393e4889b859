"""Adds the players of a list to a team's roster, or says everything that stands against it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import compress, repeat
from typing import Final

from wholeball.files.any_cell import neutral
from wholeball.files.roster_import import Entries, Entry
from wholeball.files.student_ids import IdKey, end_of
from wholeball.kernel.faults import Fault, InputFaults, Level, Place
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.kernel.refusals import toml_text
from wholeball.league.league import League, Team
from wholeball.league.player import Player, Rosters
from wholeball.rulebook.tables.people import Roster


@dataclass(frozen=True, slots=True, kw_only=True)
class Additions:
    """Who is added to a roster, with their codes; how many stood there; what is doubtful."""

    team: TeamId
    day: date
    new: tuple[Entry, ...]
    codes: tuple[PersonId, ...]
    already: int
    remarks: tuple[Fault, ...]

    def players(self) -> Iterator[Player]:
        """Yield the players as the roster will list them."""
        for one, code in zip(self.new, self.codes, strict=True):
            yield Player(
                name=one.name,
                number=one.number,
                is_captain=one.is_captain,
                person=code,
                id_end=end_of(one.student),
                added=self.day,
            )

    def cells(self) -> Iterator[tuple[str, ...]]:
        """Yield the rows for rosters.csv, in the order of its columns."""
        if not self.new:
            return iter(())
        _, students, names, numbers, captains = zip(*self.new, strict=True)
        return zip(
            repeat(neutral(self.team), len(self.new)),
            ("" if number is None else str(number) for number in numbers),
            map(neutral, names),
            ("yes" if is_captain else "" for is_captain in captains),
            self.codes,
            map(end_of, students),
            repeat(self.day.isoformat(), len(self.new)),
            strict=True,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A roster before anybody is added: the season's teams, lists and rules.

    `new` are those of other rosters whom the same list would add there.
    """

    team: TeamId
    league: League
    rules: Roster
    rosters: Rosters
    new: frozenset[tuple[TeamId, PersonId]] = frozenset()


def additions(entries: Entries, to: Standing, *, key: IdKey, day: date) -> Additions:
    """Return the rows that a list adds on a day; who stands on the roster already is counted.

    Raises:
        InputFaults: everything that stands against it; nobody is added.
    """
    adding = _Adding(entries.file, to)
    codes = [key.code_of(entry.student) for entry in entries.entries]
    is_new = [not adding.is_listed(*each) for each in zip(codes, entries.entries, strict=True)]
    new = tuple(compress(entries.entries, is_new))
    new_codes = tuple(compress(codes, is_new))
    adding.judge(new_codes, new)
    faults = sorted((*entries.faults, *adding.faults), key=lambda fault: fault.place.row or 0)
    if any(fault.level == "fault" for fault in faults):
        raise InputFaults(fault for fault in faults if fault.level == "fault")
    return Additions(
        team=to.team,
        day=day,
        new=new,
        codes=new_codes,
        already=len(entries.entries) - len(new),
        remarks=tuple(faults),
    )


_YET: Final = "the roster"


class _Adding:
    """Holds a list against the rosters, one entry after the other."""

    def __init__(self, file: str, to: Standing) -> None:
        self._file = file
        self._to = to
        self._on = to.rosters.get(to.team, ())
        self._by_code = {one.person: one for one in self._on if one.person is not None}
        self._elsewhere = _elsewhere(to)
        self._without_code = {one.name.casefold() for one in self._on if one.person is None}
        self._numbers = {one.number: _YET for one in self._on if one.number is not None}
        self._captain = next((_YET for one in self._on if one.is_captain), None)
        self.faults: list[Fault] = []

    def is_listed(self, code: PersonId, entry: Entry) -> bool:
        """Tell whether a person stands on the roster; a difference is noted, nothing changes."""
        player = self._by_code.get(code)
        if player is None:
            return False
        if (player.name, player.number, player.is_captain) != (
            entry.name,
            entry.number,
            entry.is_captain,
        ):
            says = (
                f"{toml_text(player.name)} is on the roster already and stays as listed there."
            )
            cure = "To change number, name or captain, edit rosters.csv."
            self._tell(entry, "student_id", "listed", says, cure, "note")
        return True

    def judge(self, codes: Sequence[PersonId], new: Sequence[Entry]) -> None:
        """Find what stands against adding these, and whether the roster has room for them."""
        for code, entry in zip(codes, new, strict=True):
            if entry.number is not None:
                self._judge_number(entry, entry.number)
            if entry.is_captain:
                self._judge_captain(entry)
            if self._without_code:
                self._judge_name(entry)
            if code in self._elsewhere:
                self._judge_elsewhere(entry, self._elsewhere[code])
        self._judge_size(new)

    def _judge_number(self, entry: Entry, number: int) -> None:
        row = f"row {entry.row}"
        worn = self._numbers.setdefault(number, row)
        if worn != row:
            says = f"number {number} of {self._to.team} stands on {worn} already."
            cure = "Give another number, or leave it empty."
            self._tell(entry, "number", "duplicate", says, cure)

    def _judge_captain(self, entry: Entry) -> None:
        if self._captain is not None:
            says = f"{self._to.team} has a captain on {self._captain} already."
            self._tell(entry, "captain", "duplicate", says, "A side has one captain.")
        else:
            self._captain = f"row {entry.row}"

    def _judge_name(self, entry: Entry) -> None:
        """Doubt a name that stands on the roster without a code; two codes may share a name."""
        if entry.name.casefold() in self._without_code:
            says = f"{toml_text(entry.name)} stands on the roster without a code too."
            cure = "Take that row out of rosters.csv if it is the same person."
            self._tell(entry, "name", "duplicate", says, cure, "doubt")

    def _judge_size(self, new: Sequence[Entry]) -> None:
        """Find a list that has no room on the roster; said once, at the first too many."""
        most = self._to.rules.maximum
        size = len(self._on) + len(new)
        if most != "no_limit" and new and size > most:
            too_many = new[max(0, most - len(self._on))]
            says = (
                f"{self._to.team} would have {size:,} players; its roster is full with {most}."
            )
            cure = f"The rulebook allows {most} ({_ref(self._to.rules)}); take some off."
            self._tell(too_many, "student_id", "full", says, cure)

    def _judge_elsewhere(self, entry: Entry, others: list[tuple[TeamId, Player]]) -> None:
        rules, (first, player) = self._to.rules, others[0]
        is_other = entry.name.casefold() != player.name.casefold()
        if is_other and (first, player.person) in self._to.new:
            return  # the list tells of it where it is read as a whole
        told = " and ".join(f"{team} ({self._since(team, one)})" for team, one in others)
        whose = f" has the id of {toml_text(player.name)}, who" if is_other else ""
        says = (
            f"{toml_text(entry.name)}{whose} is on the roster of {told}, and would be on that "
        )
        says += f"of {self._to.team}."
        two = "If they are two people, mend the id. " if is_other else ""
        allowed = f"{rules.teams_each} in a {rules.teams_each_in} ({_ref(rules)})"
        if len(others) >= rules.teams_each:
            cure = f"{two}The rulebook allows {allowed}. Take the person off the other roster first."
            self._tell(entry, "student_id", "eligibility", says, cure)
        elif is_other:
            cure = f"{two}If they are one, the rulebook allows {allowed}."
            self._tell(entry, "student_id", "duplicate", says, cure, "doubt")
        else:
            cure = f"Nothing to do: the rulebook allows {allowed}."
            self._tell(entry, "student_id", "eligibility", says, cure, "note")

    def _since(self, team: TeamId, player: Player) -> str:
        if (team, player.person) in self._to.new:
            return "by this list"
        return "no day written" if player.added is None else f"since {player.added}"

    def _tell(
        self,
        entry: Entry,
        column: str,
        code: str,
        says: str,
        cure: str,
        level: Level = "fault",
    ) -> None:
        place = Place(file=self._file, row=entry.row, column=column)
        self.faults.append(Fault(code=code, place=place, says=says, cure=cure, level=level))


def _elsewhere(to: Standing) -> dict[PersonId, list[tuple[TeamId, Player]]]:
    """Return who is on other rosters of where the rulebook counts teams, earliest first."""
    counted = {team.team for team in to.league.teams if _counts_with(team, to)}
    found: dict[PersonId, list[tuple[TeamId, Player]]] = {}
    for team, players in to.rosters.items():
        for player in players if team in counted else ():
            if player.person is not None:
                found.setdefault(player.person, []).append((team, player))
    for others in found.values():
        others.sort(key=lambda other: (other[1].added or date.max, other[0]))
    return found


def _counts_with(team: Team, to: Standing) -> bool:
    own = next(one for one in to.league.teams if one.team == to.team)
    if team.team == own.team:
        return False
    match to.rules.teams_each_in:
        case "division":
            return team.division == own.division
        case "block":
            return team.block == own.block
        case "league":
            leagues: dict[str | None, str] = {
                one.division: one.league for one in to.league.divisions
            }
            name = to.league.name
            return leagues.get(team.division, name) == leagues.get(own.division, name)


def _ref(rules: Roster) -> str:
    return rules.ref or "roster"
