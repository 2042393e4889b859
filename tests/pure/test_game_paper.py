"""A paper scorecard becomes the entries of a game, which comes to what the card says."""

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from cases.paper_cards import (
    LEAGUE,
    PLAY_OFF,
    cards,
    events_of,
    odd_cards,
    ordinary,
    played,
    scores,
    with_ladder,
)
from wholeball.game import happenings as was
from wholeball.game.event import Event, Moment
from wholeball.game.paper import PaperCard, PaperGoal, PaperPlayer, PaperRed, PaperYellow
from wholeball.game.paper_checks import misfits
from wholeball.game.paper_entries import Told, told
from wholeball.game.play import play
from wholeball.game.rules import GameRules
from wholeball.game.state import Ending, Score


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
    state = played(ordinary())
    assert (state.by_period, state.result, state.winner) == (
        scores((1, 1), (2, 1)),
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
    state = played(PaperCard(periods=scores(first, second)))
    assert (state.by_period, state.questions) == (scores(first, second), ())


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
    state = played(card, rules)
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


def test_both_sides_score_in_turn_where_one_ahead_of_the_other_would_be_mercy() -> None:
    rules = with_ladder("[{ lead = 2, minutes_left = 44 }]")
    state = played(PaperCard(periods=scores((6, 6), (7, 6))), rules)
    assert (state.by_period, state.questions) == (scores((6, 6), (7, 6)), ())


def test_a_goal_with_a_minute_stands_in_it_and_the_others_around_it() -> None:
    card = PaperCard(
        periods=scores((3, 0), (0, 0)),
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
        periods=scores((1, 0), (1, 0)), goals=(PaperGoal(side="home", period=2, number=9),)
    )
    assert [(one.at, one.number) for one in played(card).goals] == [
        (Moment(1, 660), None),
        (Moment(2, 660), 9),
    ]


def test_yellow_and_red_with_a_minute_stand_in_it_and_the_half_lasts_until_the_last() -> None:
    """A half of 22 minutes ends at 22:00; a yellow of its 24th minute was shown at 23:00."""
    card = PaperCard(
        periods=scores((0, 0), (0, 0)),
        yellow=(
            PaperYellow(side="home", number=7, period=1, minute=1),
            PaperYellow(side="away", number=3, period=1, minute=24),
        ),
        red=(PaperRed(side="away", number=10, period=2, minute=12),),
    )
    started = was.PeriodStarted()
    assert sorted(told(card, LEAGUE), key=lambda one: one.at) == [
        Told(Moment(1, 0), started),
        Told(Moment(1, 0), was.Cautioned(side="home", number=7)),
        Told(Moment(1, 1380), was.PeriodEnded()),
        Told(Moment(1, 1380), was.Cautioned(side="away", number=3)),
        Told(Moment(2, 0), started),
        Told(Moment(2, 660), was.SentOff(side="away", number=10)),
        Told(Moment(2, 1320), was.PeriodEnded()),
    ]


def test_an_unknown_number_is_kept() -> None:
    card = PaperCard(
        periods=scores((0, 0), (0, 0)),
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
    in_the_game = played(card, rules).goals
    assert Counter((one.at.period, one.side) for one in in_the_game) == goals


def test_players_of_a_card_are_checked_in_before_the_game() -> None:
    players = (PaperPlayer(7), PaperPlayer(9, "Noor"))
    card = ordinary().model_copy(update={"home_players": players})
    before = Moment(0, 0)
    assert told(card, LEAGUE)[:2] == (
        Told(before, was.CheckedIn(side="home", number=7)),
        Told(before, was.CheckedIn(side="home", number=9, player="Noor")),
    )
    assert [(one.side, one.number, one.player) for one in played(card).checked] == [
        ("home", 7, ""),
        ("home", 9, "Noor"),
    ]
