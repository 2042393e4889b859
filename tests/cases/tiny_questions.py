"""Draws tiny timetable questions of every kind of rule, and answers them by trying everything."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations, permutations
from random import Random
from typing import Final

from cases.tiny_season import EARLY, LATE, MIDDLE, night, pairing, question, slots
from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import From, Seeded
from wholeball.planning.check import check
from wholeball.planning.problem import Pairing, Placement, Slot, TimetableProblem
from wholeball.planning.rule import Games, Param, Rule

TEAMS = ("Ash", "Birch", "Cedar", "Dogwood", "Elm")
_STAGES: Final[tuple[Games, ...]] = ("all", "all", "league", "play_off")
_Asked = tuple[str, tuple[str, ...], dict[str, Param]]
"""The kind of a rule, the teams that it names, and what it says."""


def drawn(draws: Random) -> TimetableProblem:
    """Return a question of three or four games, five to seven slots, two to five rules."""
    games = _games(draws)
    usable = _slots(draws)
    rules = []
    for number in range(draws.randint(2, 5)):
        one = draws.choice(tuple(_rules(draws, games)))
        rules.append(replace(one, rule=f"{number} {one.kind}"))
    return question(games, usable, *rules)


def _games(draws: Random) -> tuple[Pairing, ...]:
    pairs = list(combinations(TEAMS[: draws.randint(3, 5)], 2))
    draws.shuffle(pairs)
    games = [
        pairing(f"{number}", home, away, number)
        for number, (home, away) in enumerate(_turned(pairs[:3], draws), 1)
    ]
    last = draws.random()
    if last < 0.25:
        sides = (From(game=games[0].game), From(game=games[1].game))
        games.append(pairing("P", *sides, 9, pool=None))
    elif last < 0.4:
        games.append(pairing("P", Seeded(seed=1), Seeded(seed=2), 9, pool=None))
    elif last < 0.6:
        home, away = pairs[0]
        games.append(pairing("4", away, home, 4))
    elif last < 0.8 and len(pairs) > 3:
        games.append(pairing("4", *pairs[3], 4))
    return tuple(games)


def _turned(pairs: list[tuple[str, str]], draws: Random) -> list[tuple[str, str]]:
    return [(a, b) if draws.random() < 0.5 else (b, a) for a, b in pairs]


def _slots(draws: Random) -> list[Slot]:
    nights = sorted(draws.sample((0, 1, 2, 3, 7, 8, 9), draws.randint(2, 4)))
    every = slots(nights, (EARLY, MIDDLE, LATE))
    some = draws.sample(every, min(len(every), draws.randint(5, 7)))
    short = draws.random() < 0.3
    return [
        replace(slot, minutes=45) if short and draws.random() < 0.4 else slot for slot in some
    ]


def _rules(draws: Random, games: tuple[Pairing, ...]) -> Iterator[Rule]:
    """Yield a rule of each kind, a must or a wish as it can be."""
    few = tuple(draws.sample(TEAMS, draws.randint(2, 3)))
    one = few[:1] if draws.random() < 0.6 else ()
    either = _either(draws, games, few, one)
    wishes, musts = _wishes(draws, few, one), _musts(draws)
    stage = draws.choice(_STAGES)
    for asked in either + wishes + musts:
        kind, teams, params = asked
        is_wish = asked in wishes or (asked in either and draws.random() < 0.5)
        yield Rule(
            rule=kind,
            kind=kind,
            strength="wish" if is_wish else "must",
            cost=draws.randint(1, 5) if is_wish else 0,
            teams=tuple(map(TeamId, teams)),
            games=stage,
            params=params,
        )


def _either(
    draws: Random, games: tuple[Pairing, ...], few: tuple[str, ...], one: tuple[str, ...]
) -> list[_Asked]:
    nights = tuple(f"{night(day)}" for day in sorted(draws.sample((0, 1, 2, 3, 7, 8), 2)))
    start = draws.choice(("18:00", "19:00", "20:00"))
    name = draws.choice(games).game
    return [
        ("games_a_night", one, {"most": 1}),
        ("games_a_week", one, {"most": draws.randint(1, 2)}),
        ("games_in_days", one, {"most": 1, "days": draws.randint(2, 8)}),
        ("rest_days", one, {"days": draws.randint(1, 2)}),
        (
            "games_on",
            one,
            {
                "most": draws.randint(0, 1),
                "nights": nights,
                "side": draws.choice(("any", "first", "second")),
            },
        ),
        ("double_header", one, {"starts_between": 0}),
        (
            "block",
            one,
            {
                "block": "B",
                "weekday": "monday",
                "opens": "18:00",
                "closes": draws.choice(("19:45", "20:00", "21:00")),
            },
        ),
        ("absent", one, {"weekdays": (draws.choice(("monday", "tuesday")),), "from": start}),
        ("not_at", (), {"names": (name,), "nights": nights[:1]}),
        ("never_at_once", few, {"minutes": draws.choice((1, 61))}),
        ("gap_between_repeats", (), {"days": draws.randint(1, 8)}),
        ("even_byes", (), {"most": draws.randint(0, 1)}),
        (
            "fixed",
            (),
            {"name": name, "night": nights[0], "at": start, "field": draws.choice(("", "F1"))},
        ),
    ]


def _wishes(draws: Random, few: tuple[str, ...], one: tuple[str, ...]) -> list[_Asked]:
    return [
        ("even_starts", one, {"which": draws.choice(("late", "early"))}),
        ("next_to_each_other", few, {}),
        ("idle_week", one, {}),
        ("open_night", (), {}),
        ("open_start", (), {}),
        ("even_fields", one, {}),
        ("listed_first", one, {"most": 0}),
        ("round_by_round", (), {}),
        ("no_gap", (), {}),
    ]


def _musts(draws: Random) -> list[_Asked]:
    return [
        ("length", (), {"minutes": draws.choice((45, 60))}),
        ("after", (), {"minutes": draws.choice((60, 61, 1500))}),
    ]


def tried(problem: TimetableProblem) -> int | None:
    """Return what the best of all plans costs; None where there is none."""
    return min((total for _, total in every_plan(problem)), default=None)


def every_plan(problem: TimetableProblem) -> Iterator[tuple[tuple[Placement, ...], int]]:
    """Yield every plan that breaks nothing, with what it costs."""
    games = tuple(problem.by_game)
    for places in permutations(problem.slots, len(games)):
        plan = tuple(
            Placement(game=game, start=slot.start, field=slot.field)
            for game, slot in zip(games, places, strict=True)
        )
        report = check(problem, plan)
        if not report.broken:
            yield plan, report.total
