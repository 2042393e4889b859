"""Times the fold of games against reading the same logs with their full envelopes."""

from collections.abc import Callable

from benchmarks.envelope import as_json, decode
from benchmarks.games import EVENTS, GAMES, game_entries, game_log, season
from benchmarks.in_turn import Measured, in_turn
from wholeball.game.codec import events
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import Cautioned
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.rulebook.load import load

REPEATS = 31
SEASONS = 3
LATER = 5
"""Seconds after the last event at which one more is recorded."""
HOUSE = b"""
base = "laws-2025-26"
game.minutes = 22
mercy.ladder = [{ lead = 15, minutes_left = 8 }]
cards.cautioned = { comes_off = "for_minutes", minutes = 5 }
"""


def measure() -> list[Measured]:
    """Return the ratios, the best of several runs in turn."""
    rules = game_rules(load(HOUSE, file="house.toml").rulebook)
    log = game_log().splitlines()
    decoded = events(game_entries())
    still_on = [event for event in decoded if event.at != max(one.at for one in decoded)]
    live = play(still_on, rules)
    one_more = _one_more(still_on)
    logs = [data.splitlines() for data in season()]

    fold = _ratio(lambda: play(decoded, rules), lambda: as_json(log), REPEATS)
    added = _ratio(lambda: live.then(one_more), lambda: play(still_on, rules), REPEATS)
    derived = _ratio(
        lambda: [play(decode(one), rules) for one in logs],
        lambda: [as_json(one) for one in logs],
        SEASONS,
    )
    game = f"a game of {EVENTS} events"
    return [
        (f"fold {game}, decoded", "json.loads of the log with its envelopes", fold, 3.0),
        (f"one more event near the end of {game}", "one fold of it", added, 0.1),
        (f"re-derive a season of {GAMES:,} games", "json.loads of all logs", derived, 5.0),
    ]


def _one_more(decoded: list[Event]) -> Event:
    last = max(event.at for event in decoded)
    at = Moment(last.period, last.clock + LATER)
    return Event("one-more", at, (2**41, 0, "later", 1), Cautioned(side="home", number=99))


def _ratio(subject: Callable[[], object], reference: Callable[[], object], most: int) -> float:
    least, ours = in_turn(reference, subject, times=most)
    return min(ours) / min(least)
