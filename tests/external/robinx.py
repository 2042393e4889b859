"""Reads RobinX files of time-relaxed round robins as timetable questions, and their stored plans.

The format: Van Bulck, Goossens, Schoenberger, Guajardo, EJOR 280 (2020) 568-580. Each slot
becomes a night with one start; fields are as many as there can be games at once. Whatever the
questions here cannot express is an error, never passed over.
"""

from collections.abc import Iterable, Iterator
from datetime import date, time, timedelta
from pathlib import Path
from typing import Final, NamedTuple
from xml.etree.ElementTree import Element

from defusedxml.ElementTree import parse

from wholeball.kernel.identity import GameId, PoolId, SiteId, TeamId
from wholeball.planning.problem import (
    Pairing,
    Placement,
    PlannedTeam,
    Slot,
    Start,
    TimetableProblem,
)
from wholeball.planning.rule import Param, Rule, Strength

FIRST: Final = date(2018, 9, 1)
AT: Final = time(19)
SIDES: Final = {"H": "first", "A": "second", "HA": "any"}
STRENGTHS: Final[dict[str, Strength]] = {"HARD": "must", "SOFT": "wish"}


class Stored(NamedTuple):
    """A stored plan: which game on which night, and the objective that its authors found."""

    games: tuple[tuple[str, str, int], ...]
    objective: int


class Instance:
    """One file of the family, read."""

    def __init__(self, path: Path) -> None:
        self._root = _root(path)
        self.name = path.stem
        self.teams = [one.attrib["id"] for one in self._within("Resources/Teams", "team")]
        slots = [one.attrib["id"] for one in self._within("Resources/Slots", "slot")]
        self.nights = {name: FIRST + timedelta(days=day) for day, name in enumerate(slots)}

    def problem(self) -> TimetableProblem:
        """Return the question that the file states."""
        rounds = self._root.findtext("Structure/Format/numberRoundRobin")
        if rounds != "2":
            raise ValueError(f"{self.name} is a round robin of {rounds}, not of 2")
        return TimetableProblem(
            timezone="Europe/Brussels",
            first_day=min(self.nights.values()),
            last_day=max(self.nights.values()),
            teams=tuple(PlannedTeam(team=_team(one), pool=PoolId("0")) for one in self.teams),
            pairings=tuple(
                Pairing(
                    game=_game(home, away),
                    home=_team(home),
                    away=_team(away),
                    round=1,
                    pool=PoolId("0"),
                )
                for home in self.teams
                for away in self.teams
                if home != away
            ),
            slots=tuple(
                Slot(field=f"{field}", site=SiteId("0"), night=night, at=AT, minutes=60)
                for night in self.nights.values()
                for field in range(len(self.teams) // 2)
            ),
            rules=(
                Rule(rule="a slot", kind="games_a_night", strength="must", params={"most": 1}),
                *self._rules(),
            ),
        )

    def placements(self, stored: Stored) -> tuple[Placement, ...]:
        """Return a stored plan as placements; games of one night lie on fields in its order."""
        nights = list(self.nights.values())
        taken: dict[int, int] = {}
        placed = []
        for home, away, slot in stored.games:
            field = taken.get(slot, 0)
            taken[slot] = field + 1
            start = Start(nights[slot], AT)
            placed.append(Placement(game=_game(home, away), start=start, field=f"{field}"))
        return tuple(placed)

    def stored(self, path: Path) -> Stored:
        """Return a plan that stands in a file of solutions."""
        root = _root(path)
        said = root.find("MetaData/ObjectiveValue")
        if said is None:
            raise ValueError(f"{path.name} names no objective")
        order = {name: index for index, name in enumerate(self.nights)}
        return Stored(
            games=tuple(
                (one.attrib["home"], one.attrib["away"], order[one.attrib["slot"]])
                for one in root.iter("ScheduledMatch")
            ),
            objective=int(said.attrib["objective"]),
        )

    def _within(self, path: str, tag: str) -> Iterator[Element]:
        found = self._root.find(path)
        if found is None:
            raise ValueError(f"{self.name} has no {path}")
        yield from found.iter(tag)

    def _rules(self) -> Iterator[Rule]:
        constraints = self._root.find("Constraints")
        if constraints is None:
            raise ValueError(f"{self.name} has no Constraints")
        each = (one for group in constraints for one in group)
        for number, one in enumerate(each, start=1):
            yield from self._rule(f"{one.tag} {number}", one)

    def _rule(self, name: str, one: Element) -> Iterator[Rule]:
        match one.tag:
            case "CA1":
                yield from self._on(name, one)
            case "CA3":
                yield self._window(name, one)
            case "SE1":
                # "slot difference - 1 >= min", so they meet again min + 1 nights later or more
                self._refuse(one, {"teamGroups": self._all_teams()})
                yield _made(name, one, "gap_between_repeats", days=int(one.attrib["min"]) + 1)
            case _:
                raise ValueError(f"{self.name}: {one.tag} cannot be expressed")

    def _on(self, name: str, one: Element) -> Iterator[Rule]:
        """Read CA1: the most games of a team on a set of slots, on one side or on any."""
        self._refuse(one, {"min": "0"})
        nights = tuple(f"{self.nights[slot]}" for slot in _listed(one, "slots"))
        if nights:
            yield _made(
                name,
                one,
                "games_on",
                teams=tuple(map(_team, _listed(one, "teams"))),
                most=int(one.attrib["max"]),
                nights=nights,
                side=SIDES[one.attrib["mode"]],
            )

    def _window(self, name: str, one: Element) -> Rule:
        """Read CA3 over slots: the most games in every so many slots on end."""
        everybody = self._all_teams()
        self._refuse(
            one,
            {
                "min": "0",
                "mode1": "HA",
                "mode2": "SLOTS",
                "teamGroups1": everybody,
                "teamGroups2": everybody,
            },
        )
        most, days = int(one.attrib["max"]), int(one.attrib["intp"])
        return _made(name, one, "games_in_days", most=most, days=days)

    def _all_teams(self) -> str:
        groups = list(self._within("Resources/TeamGroups", "teamGroup"))
        (everybody,) = groups
        return everybody.attrib["id"]

    def _refuse(self, one: Element, means: dict[str, str]) -> None:
        other = {name: one.attrib.get(name) for name in means}
        if other != means:
            raise ValueError(f"{self.name}: {one.tag} with {other} cannot be expressed")


def _made(
    name: str, one: Element, kind: str, teams: tuple[TeamId, ...] = (), **params: Param
) -> Rule:
    strength = STRENGTHS[one.attrib["type"]]
    cost = int(one.attrib["penalty"]) if strength == "wish" else 0
    return Rule(rule=name, kind=kind, strength=strength, cost=cost, teams=teams, params=params)


def _root(path: Path) -> Element:
    root = parse(path).getroot()
    if root is None:
        raise ValueError(f"{path.name} is empty")
    return root


def _listed(one: Element, name: str) -> Iterable[str]:
    return [item for item in one.attrib.get(name, "").split(";") if item]


def _team(name: str) -> TeamId:
    return TeamId(f"team {name}")


def _game(home: str, away: str) -> GameId:
    return GameId(f"{home}-{away}")
