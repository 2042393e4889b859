"""Makes the calendar of a team, an official or a field, as iCalendar (RFC 5545).

A game keeps its UID for good. Whatever touches it, a move, a night called off, the word that it
is on after all, raises its SEQUENCE, so that calendars take it for news of the same game. It
names teams and places alone.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from typing import Final
from uuid import NAMESPACE_URL, uuid5
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event

from wholeball.files.folder import SeasonFolder
from wholeball.store.feeds import Changed
from wholeball.usecases.feed_games import Entry, Kind, entries_of
from wholeball.usecases.feed_zone import zone

MAKER: Final = "-//Wholeball//Noticeboard//EN"
AGAIN: Final = timedelta(minutes=15)
"""After which a calendar may ask again; common practice, no source."""
_AROUND: Final = timedelta(days=366)


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """What a feed shows; `season_id` names the season for good, `history` is oldest first."""

    read: SeasonFolder
    season_id: str
    kind: Kind
    subject: str
    history: Sequence[Changed]


def feed(asked: Feed) -> bytes:
    """Return the calendar as the bytes of an .ics file."""
    league = asked.read.season.league
    name = league.name if asked.kind == "official" else f"{asked.subject}, {league.name}"
    calendar = Calendar()
    calendar.add("prodid", MAKER)
    calendar.add("version", "2.0")
    calendar.add("method", "PUBLISH")
    calendar.add("name", name)
    calendar.add("x-wr-calname", name)
    calendar.add("refresh-interval", AGAIN, parameters={"VALUE": "DURATION"})
    first, last = league.first_day - _AROUND, league.last_day + _AROUND
    calendar.add_component(zone(league.timezone, first, last))
    for entry in entries_of(asked.read, asked.kind, asked.subject, asked.history):
        calendar.add_component(_event(entry, asked))
    return bytes(calendar.to_ical())


def _event(entry: Entry, asked: Feed) -> Event:
    event, one = Event(), entry.when
    resumed = "" if entry.resumed is None else entry.resumed.isoformat()
    name = f"wholeball:{asked.season_id}:{one.game}:{resumed}"
    event.add("uid", str(uuid5(NAMESPACE_URL, name)))
    event.add("sequence", entry.sequence)
    first_day = asked.read.season.league.first_day
    event.add("dtstamp", entry.at or datetime.combine(first_day, time.min, UTC))
    event.add("summary", _summary(entry))
    event.add("location", one.field)
    event.add("status", "CANCELLED" if entry.is_off else "CONFIRMED")
    event.add("description", f"Game {one.game}{f', as {entry.role}' if entry.role else ''}")
    if entry.resumed is not None:
        event.add("dtstart", entry.resumed)
        return event
    zone_info = ZoneInfo(asked.read.season.league.timezone)
    starts = datetime.combine(one.night, one.start, zone_info)
    event.add("dtstart", starts)
    event.add("duration", _length(asked))
    return event


def _summary(entry: Entry) -> str:
    one = entry.when
    sides = f"{one.home} v {one.away}"
    if entry.is_off:
        return f"Off: {sides}"
    return f"{sides}, goes on" if entry.resumed is not None else sides


def _length(asked: Feed) -> timedelta:
    game = asked.read.season.rulebook.game
    pauses = (game.periods - 1) * game.interval_minutes
    return timedelta(minutes=game.periods * game.minutes + pauses)
