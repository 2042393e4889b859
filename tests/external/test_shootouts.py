"""Kicks from the mark end exactly where the published ones did, and not a kick before.

Sources: the published shoot-outs of the check data (competition and year in each row); the
arithmetic rows of the Laws' outcomes (IFAB Laws of the Game, Law 10.3).
"""

from typing import get_args

import pytest

from external.cases import Case, by_id, cases, read
from wholeball.game.event import KICKS, Event, Moment
from wholeball.game.happenings import Happening, KickTaken, PeriodEnded, PeriodStarted
from wholeball.game.kicks import turn_of, winner_of
from wholeball.game.play import play
from wholeball.game.rules import GameRules, game_rules
from wholeball.game.state import GameState, KicksState, Score
from wholeball.kernel.identity import Side
from wholeball.rulebook.load import load

SHOOTOUTS = cases("shootouts.json")
STATES: list[Case] = [
    row for row in read("law_outcomes.jsonl") if row["facts"]["event"] == "shootout_state"
]
SIDES: tuple[Side, ...] = get_args(Side)


def rules(each: int = 5) -> GameRules:
    text = f"""
    base = "laws-2025-26"
    ties = {{ league = "draw", play_off = "kicks" }}
    kicks = {{ each = {each} }}
    """
    return game_rules(load(text.encode(), file="house.toml").rulebook, "play_off")


RULES = rules()
LEVEL: tuple[tuple[Moment, Happening], ...] = tuple(
    (Moment(period, clock), what)
    for period in (1, 2)
    for clock, what in ((0, PeriodStarted()), (2700, PeriodEnded()))
)


def after(kicks: list[tuple[Side, bool]], by: GameRules = RULES) -> GameState:
    """Return what a level game comes to with these kicks, the first side first."""
    taken = [
        (Moment(KICKS, number), KickTaken(side=side, scored=scored))
        for number, (side, scored) in enumerate(kicks, start=1)
    ]
    events = [
        Event(f"e{index}", at, (index, 0, "device", index), what)
        for index, (at, what) in enumerate((*LEVEL, *taken))
    ]
    return play(events, by)


def kicks_of(row: Case) -> list[tuple[Side, bool]]:
    return [
        ("home" if team == row["home"] else "away", bool(scored))
        for team, scored in row["kicks"]
    ]


def kicks_state(state: GameState) -> KicksState:
    assert state.kicks is not None
    return state.kicks


@pytest.mark.parametrize("row", by_id(SHOOTOUTS))
def test_kicks_are_undecided_before_the_last_and_decided_with_it(row: Case) -> None:
    kicks = kicks_of(row)
    for number in range(len(kicks)):
        state = after(kicks[:number])
        assert (state.ending, kicks_state(state).winner, state.questions) == (None, None, ())
        expected = kicks[number][0] if number else None
        assert kicks_state(state).turn == expected
    state = after(kicks)
    winner: Side = "home" if row["winner"] == row["home"] else "away"
    assert (state.winner, kicks_state(state).winner, kicks_state(state).turn) == (
        winner,
        winner,
        None,
    )
    assert kicks_state(state).scored == tuple(row["shootout_score"])
    assert state.ending is not None
    assert (state.ending.how, state.ending.at) == ("kicks", Moment(KICKS, len(kicks)))
    assert state.questions == ()


@pytest.mark.parametrize("row", by_id(SHOOTOUTS))
@pytest.mark.parametrize("scored", [True, False])
def test_one_kick_more_is_kept_asked_about_and_not_counted(row: Case, *, scored: bool) -> None:
    kicks = kicks_of(row)
    decided = after(kicks)
    for side in SIDES:
        state = after([*kicks, (side, scored)])
        assert [(one.code, one.counts, one.answer) for one in state.questions] == [
            ("decided", False, None)
        ]
        assert (state.kicks, state.winner, state.ending) == (
            decided.kicks,
            decided.winner,
            decided.ending,
        )


@pytest.mark.parametrize("row", by_id(STATES))
def test_kicks_stand_as_the_arithmetic_of_the_law_says(row: Case) -> None:
    facts, ruling = row["facts"], row["ruling"]
    scored = Score(facts["a_goals"], facts["b_goals"])
    taken = Score(facts["a_taken"], facts["b_taken"])
    names: dict[Side | None, str | None] = {"home": "A", "away": "B", None: None}
    first: Side = "home" if facts["first"] == "A" else "away"
    winner = winner_of(
        scored, taken, each=facts["initial_kicks"], sudden_death=True, all_taken=False
    )
    turn = None if winner else turn_of(taken, first)
    status = f"{names[winner]}_wins" if winner else "continue"
    assert (status, names[turn]) == (ruling["shootout_status"], ruling["next_kicker"])
