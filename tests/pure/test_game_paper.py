"""A paper scorecard becomes a game that comes to what the card says."""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.paper_cards import (
    LEAGUE,
    PLAY_OFF,
    cards,
    events_of,
    odd_cards,
    ordinary,
    with_ladder,
)
from wholeball.game import happenings as was
from wholeball.game.event import Event, Moment
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperPlayer,
    PaperYellow,
)
from wholeball.game.paper_checks import misfits
from wholeball.game.paper_entries import Difference, Told, difference, standing, told
from wholeball.game.play import play
from wholeball.game.rules import GameRules
from wholeball.game.state import Ending, GameState, Score


def _played(card: PaperCard, rules: GameRules = LEAGUE) -> GameState:
    return play(events_of(told(card, rules)), rules)


def _scores(*scores: tuple[int, int]) -> tuple[Score, ...]:
    return tuple(Score(*one) for one in scores)


def test_an_ordinary_card_becomes_these_sixteen_entries() -> None:
    end = Moment(2, 1320)
    assert told(ordinary(), LEAGUE) == (
        Told(Moment(1, 0), was.PeriodStarted()),
        Told(Moment(1, 440), was.Goal(side="away", timed=False)),
        Told(Moment(1, 660), was.Goal(side="home", timed=False)),
        Told(Moment(1, 1320), was.PeriodEnded()),
        Told(Moment(2, 0), was.PeriodStarted()),
        Told(Moment(2, 330), was.Goal(side="home", timed=False)),
        Told(Moment(2, 440), was.Goal(side="away", timed=False)),
        Told(Moment(2, 660), was.Goal(side="home", timed=False)),
        Told(end, was.PeriodEnded()),
        Told(end, was.Cautioned(side="home", number=7, reason="dissent", timed=False)),
        Told(end, was.Cautioned(side="away", number=10, reason="trip", timed=False)),
        Told(end, was.Rated(side="home", by="official", hundredths=400)),
        Told(end, was.Rated(side="away", by="official", hundredths=500)),
        Told(end, was.Signed(by="home_captain")),
        Told(end, was.Signed(by="away_captain")),
        Told(end, was.Signed(by="official")),
    )


def test_an_ordinary_card_comes_to_three_two_at_full_time_with_nothing_to_ask() -> None:
    state = _played(ordinary())
    assert (state.by_period, state.result, state.winner) == (
        _scores((1, 1), (2, 1)),
        Score(3, 2),
        "home",
    )
    assert state.ending == Ending(how="full_time", at=Moment(2, 1320), article="game")
    assert [(one.colour, one.side, one.number) for one in state.cards] == [
        ("yellow", "home", 7),
        ("yellow", "away", 10),
    ]
    assert state.questions == ()


@given(
    st.tuples(st.integers(0, 14), st.integers(0, 14)),
    st.tuples(st.integers(0, 14), st.integers(0, 14)),
)
def test_halves_alone_give_their_score_and_no_question_whatever_mercy_says(
    first: tuple[int, int], second: tuple[int, int]
) -> None:
    state = _played(PaperCard(periods=_scores(first, second)))
    assert (state.by_period, state.questions) == (_scores(first, second), ())


_EXPECTED = {
    "period_order": "overtime after a game that was decided, or that has none",
    "not_in_rulebook": "overtime or kicks that this game does not have",
    "after_end": "a goal in such overtime",
    "decided": "a second golden goal, or a kick too many",
    "mercy": "overtime after mercy",
    "turn": "more kicks of one side than of the other",
    "already_off": "somebody shown yellow or red again",
    "rating_cap": "a high rating after a red",
}


@given(cards(), st.sampled_from((LEAGUE, PLAY_OFF)))
def test_any_card_keeps_its_halves_its_yellows_and_reds_and_asks_only_what_is_odd(
    card: PaperCard, rules: GameRules
) -> None:
    assert misfits(card, rules) == ()
    state = _played(card, rules)
    assert state.by_period[:2] == card.periods
    shown = Counter(
        (one.colour, one.side, one.number) for one in state.cards if not one.derived
    )
    asked_away = Counter(
        (
            "yellow" if isinstance(one.what, was.Cautioned) else "red",
            one.what.side,
            one.what.number,
        )
        for one in told(card, rules)
        if isinstance(one.what, was.Cautioned | was.SentOff)
    )
    assert shown == asked_away
    listed = {"unknown_player"} if card.home_players or card.away_players else set()
    assert {one.code for one in state.questions} <= {*_EXPECTED, *listed}


@given(cards())
def test_goals_of_a_period_are_never_so_near_that_they_look_entered_twice(
    card: PaperCard,
) -> None:
    clocks: dict[int, list[int]] = {}
    for one in told(card, PLAY_OFF):
        if isinstance(one.what, was.Goal):
            clocks.setdefault(one.at.period, []).append(one.at.clock)
    gaps = [
        later - earlier
        for found in clocks.values()
        for earlier, later in zip(sorted(found), sorted(found)[1:], strict=False)
    ]
    assert min(gaps, default=3) >= 3


def test_mercy_whose_minute_is_known_ends_the_game_by_its_last_goal_in_that_minute() -> None:
    card = PaperCard(periods=_scores((4, 0), (5, 0)), ended="mercy", minutes_left=6)
    state = _played(card)
    assert state.ending == Ending(how="mercy", at=Moment(2, 960), article="mercy")
    assert (state.score, state.questions, state.goals[-1].at) == (
        Score(9, 0),
        (),
        Moment(2, 960),
    )


@given(st.integers(0, 8), st.integers(0, 12), st.integers(4, 7), st.sampled_from((1, -1)))
def test_mercy_by_a_goal_is_at_its_minute_whatever_the_score(
    half_time: int, of_the_loser: int, left: int, turned: int
) -> None:
    """The goal that makes a lead of nine, with eight to three minutes left, waits for them."""
    won = (half_time, of_the_loser), (9 + of_the_loser - half_time, 0)
    periods = tuple(Score(*one[::turned]) for one in won)
    state = _played(PaperCard(periods=periods, ended="mercy", minutes_left=left))
    assert (state.ending and state.ending.how, state.ending and state.ending.at) == (
        "mercy",
        Moment(2, 1320 - 60 * left),
    )
    assert (state.by_period, state.questions) == (periods, ())


def test_mercy_at_the_minute_of_a_rung_needs_no_goal_then() -> None:
    card = PaperCard(periods=_scores((9, 0), (1, 0)), ended="mercy", minutes_left=8)
    state = _played(card)
    assert state.ending == Ending(how="mercy", at=Moment(2, 840), article="mercy")
    assert (state.score, state.questions) == (Score(10, 0), ())


def test_mercy_one_minute_before_the_ladder_is_asked_about() -> None:
    card = PaperCard(periods=_scores((9, 0), (1, 0)), ended="mercy", minutes_left=9)
    assert [one.code for one in _played(card).questions] == ["ended_early"]


def test_a_lead_of_ten_at_full_time_is_made_before_mercy_can_be_true() -> None:
    state = _played(PaperCard(periods=_scores((5, 0), (5, 0))))
    assert state.ending == Ending(how="mercy", at=Moment(2, 840), article="mercy")
    assert (state.score, state.played) == (Score(10, 0), Score(10, 0))


def test_a_game_that_went_on_after_mercy_at_any_time_is_asked_about() -> None:
    rules = with_ladder("[{ lead = 3, minutes_left = 44 }]")
    state = _played(PaperCard(periods=_scores((3, 0), (0, 1))), rules)
    assert [one.code for one in state.questions] == ["period_order", "mercy"]
    assert (state.score, state.played) == (Score(3, 0), Score(3, 1))


def test_both_sides_score_in_turn_where_one_ahead_of_the_other_would_be_mercy() -> None:
    rules = with_ladder("[{ lead = 2, minutes_left = 44 }]")
    state = _played(PaperCard(periods=_scores((6, 6), (7, 6))), rules)
    assert (state.by_period, state.questions) == (_scores((6, 6), (7, 6)), ())


def test_the_golden_goal_ends_overtime_at_its_clock() -> None:
    card = PaperCard(periods=_scores((1, 1), (0, 0)), overtime=_scores((0, 1)))
    state = _played(card, PLAY_OFF)
    assert state.ending == Ending(how="golden_goal", at=Moment(3, 140), article="overtime")
    assert (state.by_period, state.winner, state.questions) == (
        _scores((1, 1), (0, 0), (0, 1)),
        "away",
        (),
    )


def test_kicks_are_taken_in_turn_and_decide_a_level_game() -> None:
    card = PaperCard(
        periods=_scores((1, 1), (0, 0)),
        overtime=_scores((0, 0)),
        kicks=PaperKicks(first="away", home="ooo", away="o-x", home_numbers=(4, 5, 6)),
    )
    state = _played(card, PLAY_OFF)
    assert state.kicks is not None
    assert (state.kicks.first, state.kicks.scored, state.kicks.taken) == (
        "away",
        Score(3, 1),
        Score(3, 3),
    )
    assert (state.winner, state.questions) == ("home", ())
    assert told(card, PLAY_OFF)[-2:] == (
        Told(Moment(9, 5), was.KickTaken(side="away", scored=False)),
        Told(Moment(9, 6), was.KickTaken(side="home", number=6, scored=True)),
    )


def test_kicks_of_a_league_game_are_kept_and_asked_about() -> None:
    card = PaperCard(
        periods=_scores((1, 1), (0, 0)), kicks=PaperKicks(first="home", home="o", away="x")
    )
    state = _played(card)
    assert [one.code for one in state.questions] == ["not_in_rulebook"] * 2


def test_a_goal_with_a_minute_stands_in_it_and_the_others_around_it() -> None:
    card = PaperCard(
        periods=_scores((3, 0), (0, 0)),
        goals=(
            PaperGoal(side="home", period=1, minute=12, number=9),
            PaperGoal(side="home", period=1, minute=12, own=True, number=4),
        ),
    )
    assert told(card, LEAGUE)[1:4] == (
        Told(Moment(1, 660), was.Goal(side="home", number=9)),
        Told(Moment(1, 663), was.Goal(side="home", number=4, own=True)),
        Told(Moment(1, 666), was.Goal(side="home", timed=False)),
    )


def test_a_scorer_without_a_minute_gets_a_goal_of_that_half() -> None:
    card = PaperCard(
        periods=_scores((1, 0), (1, 0)), goals=(PaperGoal(side="home", period=2, number=9),)
    )
    assert [(one.at, one.number) for one in _played(card).goals] == [
        (Moment(1, 660), None),
        (Moment(2, 660), 9),
    ]


def test_a_forfeit_before_the_game_gives_its_score() -> None:
    state = _played(PaperCard(forfeit=PaperForfeit(by="away", why="too_few")))
    assert (state.ending, state.result, state.questions) == (
        Ending(how="forfeit", at=Moment(0, 0), article="forfeit", by="away"),
        Score(4, 0),
        (),
    )


def test_a_forfeit_on_the_field_stands_in_the_period_that_it_cut() -> None:
    card = PaperCard(
        periods=_scores((1, 0), (0, 1)),
        minutes_left=10,
        forfeit=PaperForfeit(by="home", why="left"),
    )
    state = _played(card)
    assert (state.by_period, state.ending, state.questions) == (
        _scores((1, 0), (0, 1)),
        Ending(how="forfeit", at=Moment(2, 720), article="forfeit", by="home"),
        (),
    )


def test_a_default_is_one() -> None:
    state = _played(PaperCard(default=PaperDefault(by="home", in_time=True)))
    assert state.ending == Ending(
        how="default", at=Moment(0, 0), article="forfeit.default", by="home"
    )


@pytest.mark.parametrize(
    ("periods", "left", "how"),
    [
        (_scores((1, 0)), 1, None),
        (_scores((1, 0)), 0, "complete"),
        (_scores((1, 0), (0, 0)), 22, "complete"),
    ],
)
def test_a_game_broken_off_is_complete_from_half_time_on(
    periods: tuple[Score, ...], left: int, how: str | None
) -> None:
    card = PaperCard(
        periods=periods, minutes_left=left, broken_off=PaperBrokenOff(why="weather")
    )
    state = _played(card)
    assert (state.ending.how if state.ending else None, state.by_period) == (how, periods)


def test_an_unknown_number_is_kept() -> None:
    card = PaperCard(
        periods=_scores((0, 0), (0, 0)),
        yellow=(PaperYellow(side="home", number=44), PaperYellow(side="home")),
    )
    checked_in = Event("c", Moment(0, 0), (1, 0, "p", 1), was.CheckedIn(side="home", number=7))
    state = play((checked_in, *events_of(told(card, LEAGUE))), LEAGUE)
    assert [one.number for one in state.cards] == [44, None]
    assert [one.code for one in state.questions] == ["unknown_player"]


@given(odd_cards(), st.sampled_from((LEAGUE, PLAY_OFF)))
def test_whatever_passes_the_checks_can_be_entered_and_has_each_goal_once(
    card: PaperCard, rules: GameRules
) -> None:
    if misfits(card, rules):
        return
    goals = Counter(
        (one.at.period, one.what.side)
        for one in told(card, rules)
        if isinstance(one.what, was.Goal)
    )
    assert goals == Counter(
        {
            (period, side): count
            for period, score in enumerate(card.scores, start=1)
            for side, count in zip(("home", "away"), score, strict=True)
            if count
        }
    )
    assert isinstance(_played(card, rules), GameState)


def _entered(before: tuple[Event, ...], card: PaperCard, *, prefix: str) -> tuple[Event, ...]:
    """Enter a card after what was entered before, as the device does."""
    changed = difference(standing(before), told(card, LEAGUE))
    taken_back = tuple(Told(Moment(0, 0), was.Retracted(target=one.id)) for one in changed.gone)
    return (*before, *events_of((*taken_back, *changed.new), prefix=prefix))


def _without_names(state: GameState) -> object:
    """Return a state without identities, entries of one moment in any order."""
    nameless = lambda lines: sorted(  # noqa: E731 - used here only
        repr(replace(one, event="")) for one in lines
    )
    return (
        state.score,
        state.by_period,
        state.ending,
        state.now,
        state.kicks and replace(state.kicks, decided_by=None),
        *map(
            nameless,
            (state.goals, state.cards, state.ratings, state.signatures, state.statements),
        ),
        sorted((one.code, one.at) for one in state.questions),
    )


@given(cards(), cards())
def test_one_card_and_then_another_comes_to_what_the_other_alone_does(
    first: PaperCard, second: PaperCard
) -> None:
    after_first = _entered((), first, prefix="a")
    both = _entered(after_first, second, prefix="b")
    alone = _entered((), second, prefix="c")
    assert _without_names(play(both, LEAGUE)) == _without_names(play(alone, LEAGUE))


@given(cards())
def test_the_same_card_again_changes_nothing(card: PaperCard) -> None:
    once = _entered((), card, prefix="a")
    assert _entered(once, card, prefix="b") == once


def test_a_goal_more_leaves_every_other_entry_its_event() -> None:
    once = _entered((), ordinary(), prefix="a")
    more = ordinary().model_copy(update={"periods": _scores((1, 1), (3, 1))})
    assert difference(standing(once), told(more, LEAGUE)).gone == ()
    assert difference(standing(once), told(more, LEAGUE)).new == (
        Told(Moment(2, 990), was.Goal(side="home", timed=False)),
    )


def test_another_reason_takes_one_entry_back_and_adds_one() -> None:
    once = _entered((), ordinary(), prefix="a")
    yellow = (PaperYellow(side="home", number=7, reason="delay"), ordinary().yellow[1])
    changed = difference(
        standing(once), told(ordinary().model_copy(update={"yellow": yellow}), LEAGUE)
    )
    assert [one.what for one in changed.gone] == [
        was.Cautioned(side="home", number=7, reason="dissent", timed=False)
    ]
    assert [one.what for one in changed.new] == [
        was.Cautioned(side="home", number=7, reason="delay", timed=False)
    ]


def test_an_old_entry_that_does_not_say_whether_it_is_timed_is_the_same_entry() -> None:
    say = {"side", "number", "own", "penalty", "reason", "to", "second_caution"}
    old = tuple(
        replace(one, what=type(one.what)(**one.what.model_dump(include=say)))
        if isinstance(one.what, was.Goal | was.Cautioned)
        else one
        for one in _entered((), ordinary(), prefix="a")
    )
    assert {one.what.timed for one in old if isinstance(one.what, was.Goal)} == {True}
    assert difference(standing(old), told(ordinary(), LEAGUE)) == Difference(gone=(), new=())


def test_a_minute_that_is_withdrawn_changes_its_goal_though_the_clock_is_the_same() -> None:
    timed = ordinary().model_copy(
        update={"goals": (PaperGoal(side="home", period=1, minute=12),)}
    )
    once = _entered((), timed, prefix="a")
    changed = difference(standing(once), told(ordinary(), LEAGUE))
    assert [one.what for one in changed.gone] == [was.Goal(side="home")]
    assert changed.new == (Told(Moment(1, 660), was.Goal(side="home", timed=False)),)


def test_entries_of_other_devices_are_left_alone() -> None:
    phone = Event("p", Moment(1, 60), (1, 1, "phone", 1), was.Goal(side="home"))
    assert standing((phone,)) == ()


def test_players_of_a_card_are_checked_in_before_the_game() -> None:
    players = (PaperPlayer(7), PaperPlayer(9, "Noor"))
    card = ordinary().model_copy(update={"home_players": players})
    before = Moment(0, 0)
    assert told(card, LEAGUE)[:2] == (
        Told(before, was.CheckedIn(side="home", number=7)),
        Told(before, was.CheckedIn(side="home", number=9, player="Noor")),
    )
    assert [(one.side, one.number, one.player) for one in _played(card).checked] == [
        ("home", 7, ""),
        ("home", 9, "Noor"),
    ]


def test_a_card_with_other_players_takes_back_and_adds_only_those() -> None:
    first = ordinary().model_copy(
        update={"home_players": (PaperPlayer(7), PaperPlayer(9, "Noor"))}
    )
    then = ordinary().model_copy(
        update={"home_players": (PaperPlayer(7), PaperPlayer(4, "Noor"))}
    )
    changed = difference(standing(events_of(told(first, LEAGUE))), told(then, LEAGUE))
    assert [one.what for one in changed.gone] == [
        was.CheckedIn(side="home", number=9, player="Noor")
    ]
    assert [one.what for one in changed.new] == [
        was.CheckedIn(side="home", number=4, player="Noor")
    ]
