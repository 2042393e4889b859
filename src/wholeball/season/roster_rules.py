"""Holds a player of a roster to the rules about additions and about club players."""

from collections.abc import Collection, Iterator, Mapping
from datetime import date, datetime, time, timedelta

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.person import Person
from wholeball.league.player import Player, Rosters, person_of
from wholeball.rulebook.tables.people import ClubPlayers, Roster
from wholeball.season.discipline import in_order
from wholeball.season.reason_not import Reason

_SUNDAY = 7


def added_late(
    rules: Roster,
    player: Player,
    team: TeamId,
    fixture: Fixture,
    fixtures: Collection[Fixture],
) -> Iterator[Reason]:
    """Yield why a player came onto the roster too late for a game, or for the season.

    A roster has days and no hours: where the day alone cannot tell, the player is let through.
    """
    if player.added is None:
        return
    last = last_day_to_add(rules, team, fixtures)
    if last is not None and player.added > last:
        yield Reason(code="added_late", article="roster", day=last)
    kick_off = datetime.combine(fixture.day, fixture.start)
    since = datetime.combine(player.added, time())
    hours = rules.additions_hours_before
    if since <= kick_off < since + timedelta(hours=hours):
        yield Reason(code="added_too_near", article="roster", day=player.added, most=hours)


def last_day_to_add(rules: Roster, team: TeamId, fixtures: Collection[Fixture]) -> date | None:
    """Return the last day on which a team may add players, or None while nothing says.

    The last regular week ends on the Sunday after its last game (common practice, no source).
    """
    match rules.additions_until:
        case "always":
            return None
        case "play_offs":
            return min((one.day for one in fixtures if one.stage == "play_off"), default=None)
        case "last_regular_week":
            last = max((one.day for one in fixtures if one.stage == "league"), default=None)
            return None if last is None else last + timedelta(_SUNDAY - last.isoweekday())
        case "second_game":
            own = [one for one in fixtures if team in (one.home, one.away)]
            games = sorted(own, key=in_order)
            return games[1].day if len(games) > 1 else None


def too_many_club_players(
    rules: ClubPlayers,
    person: PersonId,
    team: TeamId,
    rosters: Rosters,
    people: Mapping[PersonId, Person],
) -> Iterator[Reason]:
    """Yield that a player is one club or varsity player too many; those added first stay."""
    if rules.most == "no_limit":
        return
    counted = set(rules.counted)
    members = [
        (one.added or date.min, person_of(team, one))
        for one in rosters.get(team, ())
        if (known := people.get(person_of(team, one))) and counted.intersection(known.member_of)
    ]
    ordered = [who for _, who in sorted(members, key=lambda one: one[0])]
    if person in ordered[rules.most :]:
        yield Reason(
            code="club_players",
            article="roster.club_players",
            count=len(ordered),
            most=rules.most,
        )
