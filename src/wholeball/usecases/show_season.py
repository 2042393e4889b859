"""Shows who plays in a season: divisions, blocks, teams, and a team's roster with reasons."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.kernel.days import day_of_season
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import DivisionId, PersonId, Side, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.division import Block, Division
from wholeball.league.fixture import Fixture
from wholeball.league.league import Team
from wholeball.league.player import Player, person_of
from wholeball.league.record import LeagueRecord
from wholeball.reports.person_words import captain_words, cure_words, reason_words
from wholeball.season.eligibility import Eligibility
from wholeball.season.reason_not import Reason
from wholeball.season.roster_rules import last_day_to_add
from wholeball.usecases.local_day import local_day
from wholeball.usecases.season_people import known_of


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamLine:
    """A team of the list: where it plays, and how many are on its roster."""

    team: Team
    players: int
    captain: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DivisionShown:
    """A division with its blocks and teams; `division` is None where there are none."""

    division: Division | None
    blocks: tuple[Block, ...]
    teams: tuple[TeamLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonShown:
    """A season's divisions in their order, and how many teams have a roster."""

    league: str
    first_day: date
    last_day: date
    divisions: tuple[DivisionShown, ...]
    teams: int
    players: int
    without_roster: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyNot:
    """A reason in words and its cure; `blocks` is False where a person should only look.

    `is_fee` tells that it is mended among the fees of the season.
    """

    says: str
    cure: str
    blocks: bool
    is_fee: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayerLine:
    """A player of a roster; `reasons` are why not in the team's next game, for its reader."""

    player: Player
    person: PersonId
    reasons: tuple[WhyNot, ...]
    is_blocked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamShown:
    """A team, its roster as it may play in its next game (None where no game is to come).

    `free` of its players may play then, `most` may be on a roster, and none is added after
    `last_day`; both are None where the rulebook sets no limit. `on` is the day today.
    """

    team: Team
    game: Fixture | None
    players: tuple[PlayerLine, ...]
    free: int
    most: int | None
    last_day: date | None
    is_locked: bool
    on: date

    @property
    def game_day(self) -> str:
        """The day of the next game as people say it."""
        return "" if self.game is None else day_of_season(self.game.day)


def show_season(record: LeagueRecord) -> SeasonShown:
    """Return who plays in a season.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    league = read.season.league
    lines = [_line(one, read.rosters.get(one.team, ())) for one in league.teams]
    parts: list[Division | None] = [*league.divisions]
    known = {one.division for one in league.divisions}
    if not known or any(one.division not in known for one in league.teams):
        parts.append(None)
    return SeasonShown(
        league=league.name,
        first_day=league.first_day,
        last_day=league.last_day,
        divisions=tuple(
            DivisionShown(
                division=part,
                blocks=tuple(
                    one
                    for one in league.blocks
                    if part is not None and one.division == part.division
                ),
                teams=tuple(
                    one
                    for one in lines
                    if (one.team.division == part.division if part else _is_apart(one, known))
                ),
            )
            for part in parts
        ),
        teams=len(lines),
        players=sum(one.players for one in lines),
        without_roster=sum(not one.players for one in lines),
    )


def _is_apart(line: TeamLine, known: set[DivisionId]) -> bool:
    return line.team.division not in known


def _line(team: Team, players: Sequence[Player]) -> TeamLine:
    captain = next((one.name for one in players if one.is_captain), "")
    return TeamLine(team=team, players=len(players), captain=captain)


def show_team(record: LeagueRecord, team: str, *, at: datetime, for_staff: bool) -> TeamShown:
    """Return a team's roster, each player with what stands against the next game.

    A captain reads what captains may: of all else, to see the coordinator.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season or team.
    """
    read = read_folder(record)
    on = local_day(read, at)
    found = _team(read, team)
    game = _next_game(read, found.team, on)
    players = tuple(_players(read, found.team, game, on, for_staff=for_staff))
    rules = read.season.rulebook.roster
    last = last_day_to_add(rules, found.team, read.timetable)
    return TeamShown(
        team=found,
        game=game,
        players=players,
        free=sum(not one.is_blocked for one in players),
        most=rules.maximum if isinstance(rules.maximum, int) else None,
        last_day=last,
        is_locked=last is not None and on > last,
        on=on,
    )


def _team(read: SeasonFolder, name: str) -> Team:
    teams = read.season.league.teams
    found = next((one for one in teams if one.team == name), None)
    if found is None:
        raise WholeballError(
            f"There is no team {name!r}.",
            fix=did_you_mean(name, [str(one.team) for one in teams]),
            code="unknown_team",
        )
    return found


def _next_game(read: SeasonFolder, team: TeamId, on: date) -> Fixture | None:
    coming = [one for one in read.timetable if one.day >= on and team in (one.home, one.away)]
    return min(coming, key=lambda one: (one.day, one.start), default=None)


def _players(
    read: SeasonFolder, team: TeamId, game: Fixture | None, on: date, *, for_staff: bool
) -> Iterator[PlayerLine]:
    if game is None:
        for one in read.rosters.get(team, ()):
            person = person_of(team, one)
            yield PlayerLine(player=one, person=person, reasons=(), is_blocked=False)
        return
    side: Side = "home" if game.home == team else "away"
    for line in Eligibility(known_of(read, on)).gate_list(game, side):
        yield PlayerLine(
            player=line.player,
            person=line.person,
            reasons=_for_staff(line.reasons) if for_staff else _for_captain(line.reasons),
            is_blocked=line.is_blocked,
        )


def _for_staff(reasons: Sequence[Reason]) -> tuple[WhyNot, ...]:
    return tuple(
        WhyNot(
            says=_sentence(reason_words(one)),
            cure=cure_words(one),
            blocks=one.blocks,
            is_fee=one.code == "fee_open",
        )
        for one in reasons
    )


def _for_captain(reasons: Sequence[Reason]) -> tuple[WhyNot, ...]:
    says = dict.fromkeys(captain_words(one) for one in reasons)
    return tuple(WhyNot(says=one, cure="", blocks=True) for one in says)


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}."
