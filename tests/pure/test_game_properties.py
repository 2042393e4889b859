"""Whatever is recorded of a game, its state keeps what the fold promises."""

from dataclasses import replace
from random import Random

from hypothesis import example, given, settings
from hypothesis import strategies as st

from cases.random_games import RULEBOOKS, game_at_random
from wholeball.game.event import KICKS, Event, Moment
from wholeball.game.happenings import (
    Amended,
    Answered,
    Goal,
    KickTaken,
    PeriodEnded,
    PeriodStarted,
    Replayed,
    Retracted,
)
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.game.state import GameState
from wholeball.league.fixture import Stage

SEEDS = st.integers(min_value=0, max_value=2**32)
ODD = st.sampled_from((0.0, 0.3, 1.0))
STAGES: tuple[Stage, ...] = ("league", "play_off")
ALL_RULES = {
    f"rulebook {index}, {stage}": game_rules(book, stage)
    for index, book in enumerate(RULEBOOKS)
    for stage in STAGES
}
RULES = st.sampled_from(list(ALL_RULES))


@given(seed=SEEDS, odd=ODD, rules=RULES)
@settings(max_examples=400, deadline=None)
def test_any_order_and_repetition_gives_the_same_state(
    seed: int, odd: float, rules: str
) -> None:
    events = game_at_random(Random(seed), odd=odd)
    shuffled = [*events, *events[: len(events) // 2]]
    Random(seed + 1).shuffle(shuffled)
    assert play(shuffled, ALL_RULES[rules]) == play(events, ALL_RULES[rules])


@given(seed=SEEDS, odd=ODD, rules=RULES)
@settings(max_examples=200, deadline=None)
def test_an_event_added_later_gives_what_all_together_give(
    seed: int, odd: float, rules: str
) -> None:
    events = list(game_at_random(Random(seed), odd=odd))
    Random(seed + 1).shuffle(events)
    state = play([], ALL_RULES[rules])
    for event in events:
        state = state.then(event)
    assert state == play(events, ALL_RULES[rules])


@given(seed=SEEDS, odd=ODD, rules=RULES)
@settings(max_examples=200, deadline=None)
def test_an_event_added_in_the_order_of_the_game_gives_what_all_together_give(
    seed: int, odd: float, rules: str
) -> None:
    events = sorted(game_at_random(Random(seed), odd=odd), key=lambda one: one.at)
    state = play([], ALL_RULES[rules])
    for event in events:
        state = state.then(event)
    assert state == play(events, ALL_RULES[rules])


@given(seed=SEEDS, odd=ODD, rules=RULES)
@settings(max_examples=300, deadline=None)
def test_other_hybrid_clocks_change_nothing_but_amendments_and_answers_to_one_thing(
    seed: int, odd: float, rules: str
) -> None:
    chance = Random(seed)
    events = [one for one in game_at_random(chance, odd=odd) if _is_alone(one)]
    clocked = [
        replace(event, order=(chance.randrange(10**12), 0, "another", index))
        for index, event in enumerate(events)
    ]
    assert play(clocked, ALL_RULES[rules]) == play(events, ALL_RULES[rules])


def _is_alone(event: Event) -> bool:
    return not isinstance(event.what, Amended | Answered)


@given(seed=SEEDS, odd=ODD, rules=RULES)
@settings(max_examples=300, deadline=None)
def test_a_retract_takes_its_entry_away_whenever_it_arrives(
    seed: int, odd: float, rules: str
) -> None:
    events = game_at_random(Random(seed), odd=odd)
    target = events[seed % len(events)] if events else None
    if target is None or isinstance(target.what, Retracted):
        return
    retract = Event("r1", Moment(1, 0), (1, 0, "other", 1), Retracted(target=target.id))
    before = play([retract, *events], ALL_RULES[rules])
    assert before == play([*events, retract], ALL_RULES[rules])
    without = play([one for one in events if one.id != target.id], ALL_RULES[rules])
    assert _figures(before) == _figures(without)


def _figures(state: GameState) -> tuple[object, ...]:
    return (state.score, state.played, state.cards, state.kicks, state.ending, state.result)


@given(seed=SEEDS, odd=ODD, rules=RULES)
@settings(max_examples=300, deadline=None)
def test_goals_on_the_scorecard_are_the_goals_of_the_state(
    seed: int, odd: float, rules: str
) -> None:
    events = game_at_random(Random(seed), odd=odd)
    state = play(events, ALL_RULES[rules])
    counted = [line for line in state.goals if line.counts]
    assert tuple(state.score) == tuple(
        sum(line.side == side for line in counted) for side in ("home", "away")
    )
    assert tuple(state.score) == tuple(map(sum, zip(*state.by_period, strict=True))) or not (
        state.by_period
    )
    recorded = {event.id for event in events if isinstance(event.what, Goal)}
    gone = {event.what.target for event in events if isinstance(event.what, Retracted)}
    for event in events:
        if isinstance(event.what, Replayed) and event.id not in gone:
            gone |= set(event.what.voids)
    assert {line.event for line in state.goals} == recorded - gone


@given(seed=SEEDS, odd=ODD)
@settings(max_examples=400, deadline=None)
@example(seed=3, odd=1.0)
def test_kicks_never_go_on_after_they_are_decided(seed: int, odd: float) -> None:
    stage: Stage = "play_off"
    state = play(game_at_random(Random(seed), odd=odd), game_rules(RULEBOOKS[1], stage))
    if state.kicks is None or state.kicks.winner is None:
        return
    decided = next(one for one in state.statements if one.code == "kicks_decided")
    assert state.ending is not None
    assert state.ending.at == decided.at
    late = [
        one.event for one in state.questions if one.code == "decided" and one.at.period == KICKS
    ]
    assert all(one.at > decided.at for one in state.questions if one.event in late)


@given(
    scored=st.lists(st.booleans(), min_size=1, max_size=40),
)
@settings(max_examples=300, deadline=None)
def test_kicks_in_turn_are_counted_until_they_are_decided_and_no_further(
    scored: list[bool],
) -> None:
    rules = game_rules(RULEBOOKS[1], "play_off")
    state = play([*_level_game(), *_kicks(scored)], rules)
    kicks = state.kicks
    assert kicks is not None
    counted = sum(kicks.taken)
    late = sum(one.code == "decided" for one in state.questions)
    assert counted + late == len(scored)
    assert (late == 0) or kicks.winner is not None
    again = play([*_level_game(), *_kicks(scored[:counted])], rules)
    assert again.kicks == kicks


def _level_game() -> list[Event]:
    whats = [
        (Moment(period, clock), what)
        for period, length in ((1, 600), (2, 600), (3, 180))
        for clock, what in ((0, PeriodStarted()), (length, PeriodEnded()))
    ]
    return [
        Event(f"p{index}", at, (index, 0, "device", index), what)
        for index, (at, what) in enumerate(whats)
    ]


def _kicks(scored: list[bool]) -> list[Event]:
    return [
        Event(
            f"k{index}",
            Moment(KICKS, index + 1),
            (100 + index, 0, "device", 100 + index),
            KickTaken(side="away" if index % 2 else "home", scored=one),
        )
        for index, one in enumerate(scored)
    ]
