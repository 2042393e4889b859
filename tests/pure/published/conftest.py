"""Ranks a published group as typed in: results in words, rules by name."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest

from cases.score_lines import result_in
from wholeball.kernel.identity import TeamId
from wholeball.rulebook.criteria import (
    AmongLevel,
    Conduct,
    ConductPoints,
    Criterion,
    DisciplinePoints,
    LastResort,
    LevelFigure,
    criterion_name,
)
from wholeball.season.count import Counting, Points
from wholeball.season.reasons import Separation
from wholeball.season.result import CardCounts, Result
from wholeball.season.standings import Regulation, Standings, standings
from wholeball.season.tally import OutsideFigures

H2H: tuple[LevelFigure, ...] = ("h2h_points", "h2h_difference", "h2h_goals")
ONCE = AmongLevel(among_level=H2H, again=False)
AGAIN = AmongLevel(among_level=H2H, again=True)
WITH_AWAY_GOALS: tuple[LevelFigure, ...] = (*H2H, "h2h_away_goals")
CONDUCT = Conduct(
    conduct=ConductPoints(
        yellow=-1, second_yellow=-3, straight_red=-4, yellow_and_straight_red=-5
    )
)
FEWEST = DisciplinePoints(discipline_points="fewest")
OVERALL: tuple[Criterion, ...] = ("points", "difference", "goals")
LATER: tuple[Criterion, ...] = ("difference", "goals", "away_goals", "wins", "away_wins")

RULES: dict[str, tuple[tuple[Criterion, ...], LastResort]] = {
    "WORLD_CUP_1954": (("points",), "play_off_match"),
    "WORLD_CUP_1962": (("points", "goal_average"), "lots"),
    "WORLD_CUP_1974": (OVERALL, "lots"),
    "WORLD_CUP_1986": (
        (*OVERALL, AmongLevel(among_level=("h2h_points",), again=False)),
        "lots",
    ),
    "WORLD_CUP_1994": ((*OVERALL, ONCE), "lots"),
    "WORLD_CUP_2018": ((*OVERALL, ONCE, CONDUCT), "lots"),
    "WORLD_CUP_2026": (("points", AGAIN, "difference", "goals", CONDUCT), "outside_ranking"),
    "EURO_1980": (OVERALL, "lots"),
    "EURO_1996": (("points", ONCE, "difference", "goals"), "lots"),
    "EURO_2012": (("points", AGAIN, "difference", "goals", FEWEST), "outside_ranking"),
    "CLUBS_2009": (
        ("points", AmongLevel(among_level=WITH_AWAY_GOALS, again=True), *LATER),
        "outside_ranking",
    ),
    "CLUBS_2021": (("points", AGAIN, *LATER), "outside_ranking"),
    "QUALIFYING": (
        (*OVERALL, AmongLevel(among_level=WITH_AWAY_GOALS, again=False)),
        "play_off_match",
    ),
}


@pytest.fixture
def stands() -> Callable[[dict[str, Any]], tuple[str, str]]:
    """Return what gives a group's order, "A > B = C", and what parts each from the next."""
    return _stands


def _stands(group: dict[str, Any]) -> tuple[str, str]:
    found = _standings(group)
    order = str(found.rows[0].team)
    for row, separation in zip(found.rows[1:], found.neighbours, strict=True):
        order += f" {'=' if separation.by is None else '>'} {row.team}"
    return order, ", ".join(_name(separation) for separation in found.neighbours)


def _name(separation: Separation) -> str:
    if separation.by is None:
        return separation.last_resort
    criterion = separation.by.criterion
    if separation.by.figure is not None:
        return separation.by.figure
    return criterion if isinstance(criterion, str) else criterion_name(criterion)


def _standings(group: dict[str, Any]) -> Standings:
    criteria, last_resort = RULES[group["rules"]]
    results = list(_results(group["results"], group.get("awarded", "")))
    return standings(
        results,
        Regulation(
            criteria=criteria,
            last_resort=last_resort,
            counting=Counting(points=Points(win=group.get("win", 3))),
        ),
        teams={team for result in results for team in (result.home, result.away)},
        outside=OutsideFigures(
            cards={
                TeamId(team): _cards(*four) for team, four in group.get("cards", {}).items()
            },
            play_offs=list(_results(group.get("play_offs", ""))),
        ),
    )


def _cards(yellow: int, second: int, straight: int, both: int) -> CardCounts:
    return CardCounts(
        yellow=yellow, second_yellow=second, straight_red=straight, yellow_and_straight_red=both
    )


def _results(text: str, awarded: str = "") -> Iterator[Result]:
    given = {line.strip() for line in awarded.splitlines()}
    for number, line in enumerate(filter(str.strip, text.splitlines())):
        yield result_in(number, line, "awarded" if line.strip() in given else "played")
