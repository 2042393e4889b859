"""Shows a captain their roster, a player what is known of them, an official their games."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.person import Shown
from wholeball.league.player import person_of
from wholeball.reports.dates import day
from wholeball.reports.person_words import cause_words, still_words
from wholeball.reports.public_names import UNCHOSEN, public_name
from wholeball.usecases.season_people import discipline_of


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSuspension:
    """A suspension of one's own: what brought it, and what is left of it."""

    why: str
    left: str
    is_open: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPlayer:
    """Oneself on a roster, how the public reads the name now, and one's own suspensions."""

    person: PersonId
    team: TeamId
    name: str
    number: int | None
    shown: Shown
    public: str
    suspensions: tuple[OwnSuspension, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnGame:
    """A game that one officiates; minutes are those of its playing time and its pauses."""

    night: str
    at: str
    field: str
    sides: str
    role: str
    minutes: int
    is_over: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnHours:
    """The games that one officiates, in their order, and how long those so far were."""

    games: tuple[OwnGame, ...]

    @property
    def so_far(self) -> str:
        """The playing time of the games before today, in hours and minutes."""
        minutes = sum(one.minutes for one in self.games if one.is_over)
        return f"{minutes // 60} h {minutes % 60:02} min"


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterLine:
    """A player of one's own team, and how the public reads the name."""

    number: int | None
    name: str
    is_captain: bool
    public: str


def own_players(
    read: SeasonFolder, persons: Iterable[str], *, now: datetime
) -> tuple[OwnPlayer, ...]:
    """Return where persons stand on rosters, with what they may read of themselves."""
    wanted = frozenset(persons)
    if not wanted:
        return ()
    on = _local(read, now)
    open_ones = discipline_of(read, on).suspensions
    book = read.season.rulebook
    chosen = {one.person: one.shown for one in read.people}
    found = []
    for team, players in read.rosters.items():
        for one in players:
            person = person_of(team, one)
            if person in wanted:
                shown = chosen.get(person, UNCHOSEN)
                found.append(
                    OwnPlayer(
                        person=person,
                        team=team,
                        name=one.name,
                        number=one.number,
                        shown=shown,
                        public=public_name(one.name, shown),
                        suspensions=tuple(
                            OwnSuspension(
                                why=cause_words(each, book),
                                left=still_words(each),
                                is_open=each.holds_on(on),
                            )
                            for each in open_ones
                            if each.person == person
                        ),
                    )
                )
    return tuple(found)


def own_hours(read: SeasonFolder, names: Iterable[str], *, now: datetime) -> OwnHours:
    """Return the games that somebody officiates, by the names of officials.csv they go by."""
    wanted, today = frozenset(names), _local(read, now)
    return OwnHours(games=tuple(_games(read, wanted, today)))


def own_roster(read: SeasonFolder, team: str) -> tuple[RosterLine, ...]:
    """Return the roster of a team as its captain reads it, in the order of the list."""
    chosen = {one.person: one.shown for one in read.people}
    named = TeamId(team)
    return tuple(
        RosterLine(
            number=one.number,
            name=one.name,
            is_captain=one.is_captain,
            public=public_name(one.name, chosen.get(person_of(named, one), UNCHOSEN)),
        )
        for one in read.rosters.get(named, ())
    )


def _games(read: SeasonFolder, names: frozenset[str], today: date) -> Iterator[OwnGame]:
    game = read.season.rulebook.game
    minutes = game.periods * game.minutes + (game.periods - 1) * game.interval_minutes
    roles = {(one.game, one.day): one.role for one in read.crews if one.official in names}
    fixtures = {one.game: one for one in read.timetable}
    rows = [
        (night or fixtures[number].day, fixtures[number], role)
        for (number, night), role in roles.items()
        if number in fixtures
    ]
    for night, one, role in sorted(rows, key=lambda row: (row[0], row[1].start, row[1].game)):
        yield OwnGame(
            night=day(night),
            at=f"{one.start:%H:%M}",
            field=one.field,
            sides=f"{one.home} v {one.away}",
            role=role,
            minutes=minutes,
            is_over=night < today,
        )


def _local(read: SeasonFolder, now: datetime) -> date:
    return now.astimezone(ZoneInfo(read.season.league.timezone)).date()
