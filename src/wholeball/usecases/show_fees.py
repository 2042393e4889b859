"""Shows what forfeits cost each team, what was paid and waived of it, and what is left."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from wholeball.files.fees import COLUMNS, FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.table import read_table
from wholeball.kernel.days import day_of_season
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.record import LeagueRecord
from wholeball.reports.fee_words import SETTLED, cause_words, money
from wholeball.reports.game_entries import capital
from wholeball.reports.not_as_played import notes_of
from wholeball.reports.person_words import article_name
from wholeball.season.fees import Due, Ledger, fees_of
from wholeball.season.result import Result
from wholeball.season.season import Season
from wholeball.usecases.named_rows import text_of


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryShown:
    """What was paid or waived once, as it stands on a row of fees.csv."""

    row: int
    day: date
    team: TeamId
    game: GameId
    what: str
    amount: str
    why: str

    @property
    def says(self) -> str:
        """The entry in a few words: "12.50 paid on Tuesday 15 September"."""
        return f"{self.amount} {self.what} on {day_of_season(self.day)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class DueShown:
    """What a game costs a team, why, and what is settled of it; `over` is empty where nothing is.

    `left_exact` is what is left as it is typed.
    """

    team: TeamId
    game: GameId
    about: str
    why: str
    amount: str
    paid: str
    waived: str
    left: str
    over: str
    left_exact: Decimal
    entries: tuple[EntryShown, ...]

    @property
    def is_open(self) -> bool:
        """Whether something is left to pay."""
        return self.left_exact > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamFees:
    """A team's fees in the order of the games, and what it has left to pay."""

    team: TeamId
    dues: tuple[DueShown, ...]
    left: str
    owes: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FeesShown:
    """The fees of a season, teams that owe first, and the entries that settle none.

    `fee` is what one forfeit costs, empty where the rulebook has no fee, by the article `ref`.
    """

    fee: str
    ref: str
    captain_waits: bool
    teams: tuple[TeamFees, ...]
    idle: tuple[EntryShown, ...]
    left: str

    @property
    def owing(self) -> int:
        """How many teams owe something."""
        return sum(one.owes for one in self.teams)

    def due(self, team: str, game: str) -> DueShown | None:
        """Return what a game costs a team, or None where it costs it nothing."""
        every = (due for one in self.teams for due in one.dues)
        return next((one for one in every if (one.team, one.game) == (team, game)), None)


def show_fees(record: LeagueRecord) -> FeesShown:
    """Return what is due, paid, waived and left, team by team.

    Raises:
        InputFaults: everything that is wrong with the season.
        WholeballError: there is no such season.
    """
    read = read_folder(record)
    book, ledger = read.season.rulebook, fees_of(read.season, read.fees)
    entries = tuple(_entries(record, read))
    fee = book.forfeit.fee
    teams = tuple(_teams(read.season, ledger, entries))
    return FeesShown(
        fee=money(fee.amount) if fee.amount else "",
        ref=article_name("forfeit.fee", book),
        captain_waits=ledger.captain_waits,
        teams=tuple(sorted(teams, key=lambda one: not one.owes)),
        idle=tuple(one for one in entries if ledger.due(one.team, one.game) is None),
        left=money(sum(ledger.open_by_team().values(), Decimal(0))),
    )


def _entries(record: LeagueRecord, read: SeasonFolder) -> Iterator[EntryShown]:
    """Yield the entries of the file with their rows; it was read, and so every row is one."""
    data = text_of(record, FILE)
    lines = read_table(data, COLUMNS, file=FILE).lines if data.strip() else []
    for line, one in zip(lines, read.fees, strict=True):
        yield EntryShown(
            row=line.row,
            day=one.day,
            team=one.team,
            game=one.game,
            what=SETTLED[one.what],
            amount=money(one.amount),
            why=one.why,
        )


def _teams(
    season: Season, ledger: Ledger, entries: tuple[EntryShown, ...]
) -> Iterator[TeamFees]:
    results = {
        one.game: one for one in (*season.results, *season.outside.play_offs, *season.play_offs)
    }
    notes, open_ones = notes_of(season), ledger.open_by_team()
    for team in dict.fromkeys(one.team for one in ledger.dues):
        yield TeamFees(
            team=team,
            dues=tuple(
                _due(one, season, results[one.game], notes, entries)
                for one in ledger.dues
                if one.team == team
            ),
            left=money(open_ones.get(team, Decimal(0))),
            owes=team in open_ones,
        )


def _due(
    due: Due,
    season: Season,
    result: Result,
    notes: Mapping[GameId, str],
    entries: tuple[EntryShown, ...],
) -> DueShown:
    day = season.days.get(due.game)
    when = "" if day is None else f", {day_of_season(day)}"
    return DueShown(
        team=due.team,
        game=due.game,
        about=f"Game {due.game}, {result.home} v {result.away}{when}",
        why=_why(due, season, result, notes),
        amount=money(due.amount),
        paid=money(due.paid),
        waived=money(due.waived),
        left=money(due.open),
        over=money(due.over) if due.over else "",
        left_exact=due.open,
        entries=tuple(one for one in entries if (one.team, one.game) == (due.team, due.game)),
    )


def _why(due: Due, season: Season, result: Result, notes: Mapping[GameId, str]) -> str:
    """Return what a fee is due for, the ruling that made it so, and the reason as given."""
    ruling = next((one for one in season.rulings if one.number == result.ruling), None)
    cited = "" if ruling is None else f" by ruling {ruling.number} ({ruling.ref})"
    reasons = ("" if ruling is None else ruling.why, notes.get(due.game, ""))
    says = f"For {cause_words(due.cause)}{cited}."
    return " ".join((says, *(capital(one) for one in reasons if one)))
