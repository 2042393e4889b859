"""Shows a captain their roster, a player what is known of them, an official their games."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.person import Shown
from wholeball.league.player import person_of
from wholeball.league.record import LeagueRecord
from wholeball.reports.dates import day
from wholeball.reports.person_words import cause_words, still_words
from wholeball.reports.public_names import UNCHOSEN, public_name
from wholeball.usecases.own_games import Standing, Word
from wholeball.usecases.season_people import discipline_of
from wholeball.usecases.show_season import show_team


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
    """A game that one officiates; minutes are those of its playing time and its pauses.

    `word` says what holds of it and `says` how; `was` is where it stood when the season began.
    """

    night: str
    at: str
    field: str
    sides: str
    role: str
    minutes: int
    is_over: bool
    word: Word
    says: str
    was: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnHours:
    """The games that one officiates, in their order, and how long those so far were."""

    games: tuple[OwnGame, ...]

    @property
    def to_come(self) -> tuple[OwnGame, ...]:
        """The games from today on."""
        return tuple(one for one in self.games if not one.is_over)

    @property
    def over(self) -> tuple[OwnGame, ...]:
        """The games before today."""
        return tuple(one for one in self.games if one.is_over)

    @property
    def so_far(self) -> str:
        """The playing time of the games before today, in hours and minutes."""
        minutes = sum(one.minutes for one in self.over)
        return f"{minutes // 60} h {minutes % 60:02} min"


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterLine:
    """A player of one's own team, what a captain may read of them, and how the public reads the name.

    `reasons` are those against the next game: of all that is private, to see the coordinator.
    """

    number: int | None
    name: str
    is_captain: bool
    public: str
    is_blocked: bool
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRoster:
    """The roster of one's own team, as it stands for its next game, which is empty without one."""

    lines: tuple[RosterLine, ...]
    game: str


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


def own_hours(stands: Standing, names: Iterable[str]) -> OwnHours:
    """Return the games that somebody officiates, by the names of officials.csv they go by."""
    return OwnHours(games=tuple(_games(stands, frozenset(names))))


def own_roster(record: LeagueRecord, team: str, *, now: datetime) -> OwnRoster:
    """Return the roster of a team as its captain reads it, in the order of the list."""
    chosen = {one.person: one.shown for one in read_folder(record).people}
    shown = show_team(record, team, at=now, for_staff=False)
    game = shown.game
    return OwnRoster(
        lines=tuple(
            RosterLine(
                number=one.player.number,
                name=one.player.name,
                is_captain=one.player.is_captain,
                public=public_name(one.player.name, chosen.get(one.person, UNCHOSEN)),
                is_blocked=one.is_blocked,
                reasons=tuple(each.says for each in one.reasons),
            )
            for one in shown.players
        ),
        game="" if game is None else f"{shown.game_day}, {game.home} v {game.away}",
    )


def _games(stands: Standing, names: frozenset[str]) -> Iterator[OwnGame]:
    read, today = stands.board.read, stands.board.local.date()
    game, was = read.season.rulebook.game, stands.moved_from()
    minutes = game.periods * game.minutes + (game.periods - 1) * game.interval_minutes
    roles = {(one.game, one.day): one.role for one in read.crews if one.official in names}
    fixtures = {one.game: one for one in read.timetable}
    rows = [
        (night or fixtures[number].day, fixtures[number], role)
        for (number, night), role in roles.items()
        if number in fixtures
    ]
    for night, one, role in sorted(rows, key=lambda row: (row[0], row[1].start, row[1].game)):
        before = was.get(one.game) if night == one.day else None
        word, says, moved = stands.of(one.game, (night, one.start, one.field), before)
        yield OwnGame(
            night=day(night),
            at=f"{one.start:%H:%M}",
            field=one.field,
            sides=f"{one.home} v {one.away}",
            role=role,
            minutes=minutes,
            is_over=night < today,
            word=word,
            says=says,
            was=moved,
        )


def _local(read: SeasonFolder, now: datetime) -> date:
    return now.astimezone(ZoneInfo(read.season.league.timezone)).date()
