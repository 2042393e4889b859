"""Reads a season folder: all of it, or every fault of every file in it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial

from wholeball.files.beside import Around, read_beside
from wholeball.files.blocks import FILE as BLOCKS_FILE
from wholeball.files.blocks import read_blocks
from wholeball.files.bracket import Brackets
from wholeball.files.bracket_names import name_doubts
from wholeball.files.divisions import FILE as DIVISIONS_FILE
from wholeball.files.divisions import read_divisions
from wholeball.files.editions import Editions
from wholeball.files.fees import fee_doubts
from wholeball.files.game_files import GameFiles, played, read_game_files
from wholeball.files.planning import NO_PLANNING, Planning, read_planning
from wholeball.files.play_off_doubts import play_off_doubts
from wholeball.files.published import FILE as PUBLISHED_FILE
from wholeball.files.published import read_published
from wholeball.files.reading import Reading
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.results import Results
from wholeball.files.row_faults import known_teams
from wholeball.files.rulebook_file import FILE as RULEBOOK_FILE
from wholeball.files.season_parts import idle_lots, league_of, season_of, unknown_teams
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.season_toml import SeasonEntry, read_season_toml
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.files.teams import read_teams
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.uncollected import LARGE, set_aside, uncollected
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.crew import Official, OnCrew
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.league.league import League
from wholeball.league.person import NotCleared, Person
from wholeball.league.place import Field, Site
from wholeball.league.player import Rosters
from wholeball.league.record import LeagueRecord
from wholeball.league.sign_up import Alone, SignUp
from wholeball.league.texts import Changing, LastingTexts
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load
from wholeball.season.appearances import GameSheet, sheet_of_result
from wholeball.season.decision import Decision
from wholeball.season.fees import FeeEntry, fees_of
from wholeball.season.published import PublishedLine
from wholeball.season.season import Season


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonFolder:
    """A season as its folder states it, and what in it is doubtful or worth a note.

    `rows` says where each game stands in results.csv, and `sheets` what each game of the timetable
    that has begun says of people. `published` is a table that somebody else
    published; what a folder does not have is empty. `timetable` has the games whose sides are
    known, `open_fixtures` the rest; `brackets` are the draws by name, best seed first.
    """

    season: Season
    published: tuple[PublishedLine, ...]
    remarks: tuple[Fault, ...]
    timetable: tuple[Fixture, ...] = ()
    rosters: Rosters = field(default_factory=dict)
    rows: Mapping[GameId, int] = field(default_factory=dict)
    sheets: tuple[GameSheet, ...] = ()
    open_fixtures: tuple[OpenFixture, ...] = ()
    brackets: Brackets = field(default_factory=dict)
    sites: tuple[Site, ...] = ()
    fields: tuple[Field, ...] = ()
    officials: tuple[Official, ...] = ()
    crews: tuple[OnCrew, ...] = ()
    sign_ups: tuple[SignUp, ...] = ()
    alone: tuple[Alone, ...] = ()
    people: tuple[Person, ...] = ()
    not_cleared: tuple[NotCleared, ...] = ()
    decisions: tuple[Decision, ...] = ()
    fees: tuple[FeeEntry, ...] = ()
    planning: Planning = field(default=NO_PLANNING)
    editions: Editions = field(default_factory=dict)

    @property
    def bracket(self) -> tuple[TeamId, ...]:
        """The teams of the bracket without a name, best seed first."""
        return self.brackets.get("", ())


def read_folder(
    record: LeagueRecord, *, instead: Mapping[str, bytes] | None = None
) -> SeasonFolder:
    """Return the season that a record keeps, with some of its files read otherwise.

    `instead` has what a file would hold after a change that is only being tried. What never
    changes is read once.

    Raises:
        InputFaults: every fault of every file; nothing of the folder was taken.
        WholeballError: there is no such record.
    """
    now = record.as_it_stands() if isinstance(record, Changing) else record
    now.refuse_missing()
    if isinstance(now, LastingTexts) and not instead:
        return now.made.once("season folder", lambda: _kept(now))
    return _read(now, instead or {})


def _kept(record: LastingTexts) -> SeasonFolder:
    """Return a season that stays in the process for a long time."""
    is_new = not record.made.has_parts
    found = _read(record, {})
    if is_new and sum(map(len, record.texts.values())) >= LARGE:
        set_aside()
    return found


def _read(record: LeagueRecord, instead: Mapping[str, bytes]) -> SeasonFolder:
    with uncollected():
        return _Whole(Reading(record, instead)).season_folder()


class _Whole:
    """Reads one folder, file by file, and then what its games come to."""

    def __init__(self, reading: Reading) -> None:
        self._reading = reading

    def season_folder(self) -> SeasonFolder:
        reading = self._reading
        said = reading.file(SEASON_FILE, read_season_toml)
        loaded = reading.file(RULEBOOK_FILE, partial(load, file=RULEBOOK_FILE))
        entry = said.entry if said is not None else None
        book = loaded.rulebook if loaded is not None else None
        league = self._league(entry)
        if said is not None and league is not None:
            reading.faults += unknown_teams(said, league)
        if said is not None and loaded is not None:
            reading.faults += idle_lots(said, loaded)
        files = read_game_files(reading, league, book)
        published = self._published(league)
        beside = read_beside(reading, self._around(files, league, book))
        planning = read_planning(reading, league, book, (files.sites, files.fields))
        found = played(reading, files, book)
        faults = [fault for fault in reading.faults if fault.level == "fault"]
        results = files.results
        if faults or entry is None or league is None or loaded is None:
            raise InputFaults(faults)
        if found is None or results is None:
            raise ValueError("a folder without a fault says what its games come to")
        season = season_of(
            entry,
            league,
            loaded.rulebook,
            plain=results,
            games=found.games,
            rulings=files.rulings,
        )
        still_open = tuple(found.filling.still_open())
        reading.faults += name_doubts(season, files.brackets, still_open)
        if planning.said is not None:
            drawn, games = files.brackets, found.timetable
            reading.faults += play_off_doubts(planning.said, season, drawn, games)
        if beside.fees:
            reading.faults += fee_doubts(fees_of(season, beside.fees))
        return SeasonFolder(
            season=season,
            published=published,
            remarks=(*loaded.remarks, *reading.faults),
            timetable=found.timetable,
            rosters=files.rosters,
            rows=results.rows,
            editions=files.editions,
            sheets=(*_plain_sheets(season, found.timetable, results), *found.games.sheets),
            open_fixtures=still_open,
            brackets=files.brackets,
            sites=files.sites,
            fields=files.fields,
            officials=beside.officials,
            crews=beside.crews,
            sign_ups=beside.sign_ups,
            alone=beside.alone,
            people=beside.people,
            not_cleared=beside.not_cleared,
            decisions=beside.decisions,
            fees=beside.fees,
            planning=planning,
        )

    def _league(self, entry: SeasonEntry | None) -> League | None:
        """Return the league, or None where season.toml or teams.csv cannot be read."""
        reading = self._reading
        name = "" if entry is None else entry.name
        divisions = reading.rows(DIVISIONS_FILE, lambda data: read_divisions(data, name))
        known = reading.known((one.division for one in divisions), DIVISIONS_FILE)
        blocks = reading.rows(BLOCKS_FILE, lambda data: read_blocks(data, known))
        is_sound = not reading.is_wrong(DIVISIONS_FILE, BLOCKS_FILE)
        teams = reading.table(
            TEAMS_FILE, lambda data: read_teams(data, divisions, blocks if is_sound else None)
        )
        if entry is None or teams is None:
            return None
        return league_of(entry, teams, divisions, blocks)

    def _published(self, league: League | None) -> tuple[PublishedLine, ...]:
        if league is None:
            return ()
        return self._reading.rows(PUBLISHED_FILE, lambda data: read_published(data, league))

    def _around(self, files: GameFiles, league: League | None, book: Rulebook | None) -> Around:
        reading, timetable = self._reading, files.timetable
        blocks = () if league is None else (one.block for one in league.blocks)
        games = None
        if league is not None and files.results is not None:
            games = reading.known(files.games, TIMETABLE_FILE, RESULTS_FILE)
        return Around(
            league=league,
            book=book,
            teams=None if league is None else known_teams(league),
            blocks=None if league is None else reading.known(blocks, BLOCKS_FILE),
            games=games,
            starts=timetable.starts,
            rosters=files.rosters,
        )


def _plain_sheets(
    season: Season, timetable: tuple[Fixture, ...], plain: Results
) -> Iterator[GameSheet]:
    """Yield the sheets of the games whose result stands in results.csv, as ruled."""
    fixtures = {fixture.game: fixture for fixture in timetable}
    for result in (*season.results, *season.outside.play_offs, *season.play_offs):
        if result.game in plain.rows and result.game in fixtures:
            yield sheet_of_result(fixtures[result.game], result)
