"""Makes paper scorecards and the rules of their games for tests."""

from decimal import Decimal
from typing import Any, Final

from hypothesis import strategies as st

from wholeball.game.event import Event
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperPlayer,
    PaperRating,
    PaperRed,
    PaperYellow,
)
from wholeball.game.paper_entries import DEVICE, Told, told
from wholeball.game.play import play
from wholeball.game.rules import GameRules, game_rules
from wholeball.game.state import GameState, Score
from wholeball.kernel.identity import Side
from wholeball.rulebook.load import load

HOUSE: Final = """
base = "laws-2025-26"
game.minutes = 22
game.stoppages.lost_time = "not_added"
mercy.ladder = [{ lead = 9, minutes_left = 8 }, { lead = 6, minutes_left = 3 }]
ties = { league = "draw", play_off = "overtime_then_kicks" }
overtime = { ends = "golden_goal", periods = 1, minutes = 7 }
kicks = { each = 4, sudden_death = true }
cards.cautioned = { comes_off = "until_replaced", may_be_replaced = true }
forfeit.score = { winners = 4, losers = 0 }
resumption.complete_after = "half"
ratings = { by = "officials", scale = { low = 1, high = 5, step = 1 }, reason_at_or_below = 2, cap_after_sending_off = 3, floor = 1, minimum_count = 3, play_off_minimum = 3 }
"""
BOOK: Final = load(HOUSE.encode(), file="house.toml").rulebook
LEAGUE: Final = game_rules(BOOK)
PLAY_OFF: Final = game_rules(BOOK, "play_off")


def with_ladder(ladder: str) -> GameRules:
    """Return the rules of a league game whose mercy rule has another ladder."""
    text = HOUSE.replace(
        "[{ lead = 9, minutes_left = 8 }, { lead = 6, minutes_left = 3 }]", ladder
    )
    return game_rules(load(text.encode(), file="house.toml").rulebook)


def events_of(entries: tuple[Told, ...], *, prefix: str = "e") -> tuple[Event, ...]:
    """Return entries as events of the paper, with names by their place."""
    return tuple(
        Event(f"{prefix}{number:03}", one.at, (1, number, DEVICE, number), one.what)
        for number, one in enumerate(entries, start=1)
    )


def played(card: PaperCard, rules: GameRules = LEAGUE) -> GameState:
    """Return what a game comes to by its card."""
    return play(events_of(told(card, rules)), rules)


def scores(*periods: tuple[int, int]) -> tuple[Score, ...]:
    """Return the scores of periods, home first."""
    return tuple(Score(*one) for one in periods)


def ordinary() -> PaperCard:
    """Return the card of an ordinary game: 3-2, two yellows, ratings, three signatures."""
    return PaperCard(
        periods=(Score(1, 1), Score(2, 1)),
        yellow=(
            PaperYellow(side="home", number=7, reason="dissent"),
            PaperYellow(side="away", number=10, reason="trip"),
        ),
        ratings=(
            PaperRating(side="home", value=Decimal(4)),
            PaperRating(side="away", value=Decimal(5)),
        ),
        signed=("home_captain", "away_captain", "official"),
    )


SIDES: Final[tuple[Side, Side]] = ("home", "away")
_scores = st.builds(Score, st.integers(0, 14), st.integers(0, 14))
_numbers = st.none() | st.integers(0, 99)
_moments = st.one_of(st.just((None, None)), st.tuples(st.integers(1, 2), st.integers(1, 22)))
_yellows = st.builds(
    lambda side, number, moment: PaperYellow(
        side=side, number=number, period=moment[0], minute=moment[1]
    ),
    st.sampled_from(SIDES),
    _numbers,
    _moments,
)
_reds = st.builds(
    lambda side, number: PaperRed(side=side, number=number), st.sampled_from(SIDES), _numbers
)
_kicks = st.none() | st.builds(
    PaperKicks,
    first=st.sampled_from(SIDES),
    home=st.text("ox-", max_size=6),
    away=st.text("ox-", max_size=6),
)


_players = st.lists(
    st.builds(PaperPlayer, st.integers(0, 99), st.just(""))
    | st.builds(PaperPlayer, _numbers, st.sampled_from(("Noor", "Umaru K", "x-9", "a=b"))),
    max_size=4,
    unique_by=(
        lambda one: one.name if one.number is None else one.number,
        lambda one: one.name or one.number,
    ),
).map(tuple)


@st.composite
def cards(draw: st.DrawFn) -> PaperCard:
    """Draw the card of any game that was played to its end."""
    return PaperCard(
        periods=(draw(_scores), draw(_scores)),
        overtime=draw(st.lists(_scores, max_size=1).map(tuple)),
        kicks=draw(_kicks),
        home_players=draw(_players),
        away_players=draw(_players),
        yellow=tuple(draw(st.lists(_yellows, max_size=4))),
        red=tuple(draw(st.lists(_reds, max_size=2))),
        ratings=tuple(
            PaperRating(side=side, value=Decimal(draw(st.integers(1, 5))), reason="as seen")
            for side in SIDES
        ),
        signed=("home_captain", "official"),
    )


_minutes = st.none() | st.integers(1, 99)
_few = st.builds(Score, st.integers(0, 4), st.integers(0, 4)) | st.builds(
    Score, st.integers(0, 99), st.integers(0, 99)
)
_cut: st.SearchStrategy[dict[str, Any]] = st.sampled_from(
    (
        {},
        {"ended": "mercy"},
        {"forfeit": PaperForfeit(by="both", why="left")},
        {"broken_off": PaperBrokenOff(why="lights")},
    )
)


@st.composite
def odd_cards(draw: st.DrawFn) -> PaperCard:
    """Draw a card of odd values, many of which cannot be meant together."""
    cut = draw(_cut)
    periods = tuple(draw(st.lists(_few, min_size=1 if cut else 2, max_size=2)))
    overtime = tuple(draw(st.lists(_few, max_size=2))) if len(periods) == 2 else ()
    scored = [
        (period, side)
        for period, score in enumerate((*periods, *overtime), start=1)
        for side in SIDES
        for _ in range(score[side == "away"])
    ]
    timed = draw(st.lists(st.sampled_from(scored), max_size=5)) if scored else []
    return PaperCard(
        periods=periods,
        overtime=overtime,
        kicks=draw(_kicks) if len(periods) == 2 else None,
        minutes_left=draw(st.none() | st.integers(0, 23)) if cut else None,
        goals=tuple(
            PaperGoal(side=side, period=period, minute=draw(_minutes), number=draw(_numbers))
            for period, side in timed
        ),
        yellow=tuple(draw(st.lists(_yellows, max_size=2))),
        **cut,
    )
