"""Who is surely in or out is proven exactly: each verdict is that of trying every course."""

from dataclasses import replace
from itertools import product
from random import Random

import pytest

from wholeball.kernel.identity import TeamId
from wholeball.season.race import Race, Verdict
from wholeball.solvers.clinch import verdicts

SOCCER = ((3, 0), (1, 1), (0, 3))
SIX = tuple(TeamId(name) for name in "ABCDEF")


def test_a_team_that_can_reach_the_leaders_total_is_out_where_they_must_meet() -> None:
    """5 5 5 2, A-B B-C A-C and D-A left, one place: A, B and C share two points a game."""
    race = Race(
        teams=SIX[:4],
        points=(5, 5, 5, 2),
        games=((0, 1), (1, 2), (0, 2), (3, 0)),
        places=1,
        outcomes=SOCCER,
    )
    assert [one.status for one in verdicts(race)] == ["alive", "alive", "alive", "out"]


def test_the_first_point_that_is_enough_is_told_from_the_last_that_is_not() -> None:
    """B has 4 and one game against C left; A clinches with 8, hangs on ties with 7."""
    race = Race(teams=SIX[:3], points=(8, 4, 0), games=((1, 2),), places=1, outcomes=SOCCER)
    assert [one.status for one in verdicts(race)] == ["clinched", "out", "out"]
    level = replace(race, points=(7, 4, 0))
    assert [one.status for one in verdicts(level)] == [
        "depends_on_ties",
        "depends_on_ties",
        "out",
    ]
    behind = replace(race, points=(6, 4, 0))
    assert [one.status for one in verdicts(behind)] == ["alive", "alive", "out"]


def test_a_barred_team_is_out_and_takes_no_place_away() -> None:
    race = Race(
        teams=SIX[:3],
        points=(9, 6, 3),
        games=(),
        places=1,
        outcomes=SOCCER,
        barred=frozenset(SIX[:1]),
    )
    assert [one.status for one in verdicts(race)] == ["out", "clinched", "out"]


def test_a_team_that_may_yet_be_barred_neither_clinches_nor_puts_another_out() -> None:
    race = Race(
        teams=SIX[:3],
        points=(9, 6, 3),
        games=(),
        places=1,
        outcomes=SOCCER,
        unsure=frozenset(SIX[:1]),
    )
    assert [one.status for one in verdicts(race)] == ["alive", "alive", "out"]


def test_points_by_the_game_are_compared_without_rounding() -> None:
    """7 points of 3 games are less than 10 of 4; 28 against 30 twelfths."""
    race = Race(
        teams=SIX[:2], points=(7, 10), games=(), places=1, outcomes=SOCCER, worth=(4, 3)
    )
    assert [one.status for one in verdicts(race)] == ["out", "clinched"]
    level = replace(race, points=(6, 8))
    assert {one.status for one in verdicts(level)} == {"depends_on_ties"}


def test_a_search_cut_short_proves_nothing() -> None:
    chance = Random(4)
    teams = tuple(TeamId(f"t{number}") for number in range(20))
    race = Race(
        teams=teams,
        points=tuple(chance.randint(10, 14) for _ in teams),
        games=tuple((a, b) for a in range(20) for b in range(a)),
        places=9,
        outcomes=SOCCER,
    )
    found = verdicts(race, most_work=0.0)
    assert {one.status for one in found} == {"alive"}
    assert any(one.out_ties_lost is None for one in found)


def test_600_verdicts_on_25_leagues_are_those_of_trying_every_course() -> None:
    """The size of the published check: 6 teams, 8 games left, k places, four questions each."""
    chance = Random(20270504)
    checked = 0
    for _ in range(25):
        race = _league(chance)
        found, tried = verdicts(race), _tried(race)
        assert found == tried
        checked += 4 * len(found)
    assert checked == 600


@pytest.mark.parametrize("case", range(12))
def test_other_points_bars_and_unequal_games_are_those_of_trying_every_course(
    case: int,
) -> None:
    chance = Random(case)
    race = replace(
        _league(chance, games=6),
        outcomes=chance.choice((((2, 0), (0, 2)), (*SOCCER, (3, -1), (-1, 3)))),
        worth=tuple(chance.choice((2, 3)) for _ in SIX) if case % 2 else (),
        barred=frozenset(chance.sample(SIX, case % 3)),
    )
    race = replace(race, unsure=frozenset(chance.sample(SIX, case % 2)) - race.barred)
    assert verdicts(race) == _tried(race)


def _league(chance: Random, *, games: int = 8) -> Race:
    return Race(
        teams=SIX,
        points=tuple(chance.randint(3, 12) for _ in SIX),
        games=tuple((a, b) for a, b in (chance.sample(range(6), 2) for _ in range(games))),
        places=chance.randint(1, 4),
        outcomes=SOCCER,
    )


def _tried(race: Race) -> tuple[Verdict, ...]:
    """Return the verdicts by going through every course of the games left."""
    ends: dict[TeamId, set[tuple[str, bool]]] = {team: set() for team in race.teams}
    worth = race.worth or (1,) * len(race.teams)
    for course in product(race.outcomes, repeat=len(race.games)):
        totals = list(race.points)
        for (home, away), (home_points, away_points) in zip(race.games, course, strict=True):
            totals[home] += home_points
            totals[away] += away_points
        compared = [total * each for total, each in zip(totals, worth, strict=True)]
        for index, team in enumerate(race.teams):
            ends[team] |= _ends(race, compared, index)
    return tuple(
        Verdict(
            team=team,
            in_ties_won=("won", True) in seen,
            in_ties_lost=("lost", True) in seen,
            out_ties_won=("won", False) in seen,
            out_ties_lost=("lost", False) in seen,
        )
        for team, seen in ends.items()
    )


def _ends(race: Race, totals: list[int], index: int) -> set[tuple[str, bool]]:
    """Return whether the team can be in, and can be out, by ties won and by ties lost."""
    team = race.teams[index]
    if team in race.barred:
        return {("won", False), ("lost", False)}
    rivals = [i for i, one in enumerate(race.teams) if one not in race.barred and i != index]
    sure = [i for i in rivals if race.teams[i] not in race.unsure]
    found = set()
    for ties in ("won", "lost"):
        least = totals[index] + (ties == "won")
        if sum(totals[i] >= least for i in sure) < race.places:
            found.add((ties, True))
        if team in race.unsure or sum(totals[i] >= least for i in rivals) >= race.places:
            found.add((ties, False))
    return found
