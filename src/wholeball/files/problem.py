"""Makes the timetable's question of what a season folder holds."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.files.planned_games import (
    differences,
    games_each,
    league_games,
    numbered,
    refused,
)
from wholeball.files.planning import league_minutes, play_off_minutes
from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.planning_toml import PlanningToml, unknown_games
from wholeball.files.slots import FILE as SLOTS_FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId, PoolId, SiteId, TeamId
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.league.place import sites_of
from wholeball.planning.gone import gone
from wholeball.planning.problem import (
    Closed,
    Lock,
    Pairing,
    Placement,
    PlannedTeam,
    Slot,
    Start,
    TimetableProblem,
)
from wholeball.planning.rule import Rule
from wholeball.planning.shared import shared_players

Fixtures = Mapping[GameId, Fixture | OpenFixture]
_LENGTHS: Final = ("length of a league game", "length of a play-off game")
_AFTER: Final = "after what brings its sides"


def problem_of(
    read: SeasonFolder, *, on: datetime | None = None, as_planned: bool = False
) -> TimetableProblem:
    """Return the question that a season folder asks.

    Its games are those of timetable.csv where that has any, and else those of the pools; games
    of planning.toml's play-offs come to them, and those that are listed have its rounds. With
    `as_planned` they are those that planning.toml asks for, whatever timetable.csv lists, until
    one has been played. What has been played stays where it was; with `on`, a local time, all else
    begins then or later. A team that has left is none of its teams.

    Raises:
        InputFaults: planning.toml names games that there are not.
        WholeballError: there is nothing to plan by, the games cannot be counted out, or games
            have been played and planning.toml asks for others than there are.
    """
    return _Question(read, on, as_planned).problem()


def other_games(read: SeasonFolder) -> tuple[str, ...]:
    """Say where timetable.csv lists other games than planning.toml asks for."""
    return _Question(read, None, as_planned=True).others()


def free_slots(read: SeasonFolder) -> tuple[Slot, ...]:
    """Return the slots that a first plan can use: no closure takes them, none is kept for rain."""
    planning = read.planning
    spare = frozenset(() if planning.said is None else planning.said.entry.spare_nights)
    return tuple(
        slot
        for slot in planning.slots
        if slot.night not in spare and not any(one.closes(slot) for one in planning.closures)
    )


def played_games(read: SeasonFolder) -> frozenset[GameId]:
    """Return the games that have a result or an entry, and so keep their places."""
    season = read.season
    results = (*season.results, *season.play_offs, *season.outside.play_offs)
    return frozenset(
        (
            *(one.game for one in results),
            *read.rows,
            *(sheet.fixture.game for sheet in read.sheets),
        )
    )


@dataclass(frozen=True, slots=True)
class _Question:
    read: SeasonFolder
    on: datetime | None
    as_planned: bool

    def others(self) -> tuple[str, ...]:
        listed = self._listed(self._fixtures())
        return differences(self._said(), self.read.season.league.pools, listed)

    def problem(self) -> TimetableProblem:
        said = self._said()
        fixtures = self._fixtures()
        listed = numbered(said, self._listed(fixtures))
        has_begun = played_games(self.read)
        played = {game: _placed(fixtures[game]) for game in fixtures if game in has_begun}
        left = self._left(said, listed, frozenset(played)) if listed else frozenset()
        open_slots, closed = self._slots(played)
        if not listed or self._is_other(said, listed, played):
            fixtures = {}
            listed = tuple(one for one in listed if one.pool is None and not said.play_offs)
            beside = [*listed, *said.play_offs]
            listed = (*self._league(said, left, len(open_slots), beside), *listed)
        names = {one.game for one in listed}
        games = (*listed, *(one for one in said.play_offs if one.game not in names))
        announced = tuple(_placed(one) for one in fixtures.values())
        faults = unknown_games(said, games)
        if faults:
            raise InputFaults(faults)
        league = self.read.season.league
        teams = tuple(one for one in league.teams if one.team not in left)
        return TimetableProblem(
            timezone=league.timezone,
            first_day=league.first_day,
            last_day=league.last_day,
            teams=tuple(
                PlannedTeam(
                    team=one.team, pool=one.pool, division=one.division, block=one.block
                )
                for one in teams
            ),
            pairings=games,
            slots=open_slots,
            rules=(
                *self._own_rules(said, games),
                *self._shared(said, [one.team for one in teams]),
                *said.rules,
                *self.read.planning.absences,
            ),
            locks=tuple(
                Lock(game=one.game, start=one.start, field=one.field, why="played")
                for one in played.values()
            ),
            announced=announced,
            spare=frozenset(said.entry.spare_nights),
            closed=closed,
        )

    def _said(self) -> PlanningToml:
        planning = self.read.planning
        if planning.said is None:
            raise WholeballError(
                f"There is no {PLANNING_FILE}, which says how much each team plays.",
                fix="Write one: the guide “Plan the timetable” has an example.",
                code="missing_file",
            )
        if not planning.slots:
            raise WholeballError(
                f"There is no slot to play in: {SLOTS_FILE} is missing or has no row.",
                fix="Give it a row for each field and weekday, such as: Meadow 1,monday,,,,18:00,21:00,,,",
                code="missing_file",
            )
        return planning.said

    def _fixtures(self) -> Fixtures:
        both: tuple[Fixture | OpenFixture, ...] = (
            *self.read.timetable,
            *self.read.open_fixtures,
        )
        return {one.game: one for one in both}

    def _slots(
        self, played: Mapping[GameId, Placement]
    ) -> tuple[tuple[Slot, ...], tuple[Closed, ...]]:
        """Return the slots that can be used and those that closures take.

        Where a game was played there is a slot, whatever slots.csv says by now.
        """
        planning = self.read.planning
        where = {(one.start, one.field) for one in played.values()}
        usable: list[Slot] = []
        closed: list[Closed] = []
        for slot in planning.slots:
            by = next((one for one in planning.closures if one.closes(slot)), None)
            is_past = self.on is not None and datetime.combine(slot.night, slot.at) < self.on
            if (slot.start, slot.field) in where:
                where.discard((slot.start, slot.field))
                usable.append(slot)
            elif by is not None:
                closed.append(Closed(slot=slot, by=f"{by}"))
            elif not is_past:
                usable.append(slot)
        usable += self._gone(where)
        return tuple(usable), tuple(closed)

    def _gone(self, where: set[tuple[Start, str]]) -> Iterator[Slot]:
        minutes = play_off_minutes(self.read.season.rulebook, self.read.planning.said)
        sites = sites_of(self.read.fields)
        for start, field in sorted(where):
            yield Slot(
                field=field,
                site=sites.get(field, SiteId("")),
                night=start.night,
                at=start.at,
                minutes=minutes,
            )

    def _league(
        self, said: PlanningToml, left: frozenset[TeamId], places: int, beside: list[Pairing]
    ) -> tuple[Pairing, ...]:
        """Return the games of the league that planning.toml asks of those who have not left."""
        if self.read.rows:
            raise WholeballError(
                f"results.csv has games, and {TIMETABLE_FILE} has none.",
                fix=f"Write the games that were played into {TIMETABLE_FILE} first.",
                code="contradiction",
            )
        pools = {
            pool: [team for team in teams if team not in left]
            for pool, teams in self.read.season.league.pools.items()
        }
        return league_games(said, pools, places=places, beside=beside)

    def _listed(self, fixtures: Fixtures) -> tuple[Pairing, ...]:
        pools = {one.team: one.pool for one in self.read.season.league.teams}
        return tuple(_pairing(one, pools) for one in fixtures.values())

    def _is_other(
        self, said: PlanningToml, listed: tuple[Pairing, ...], played: object
    ) -> bool:
        """Tell whether planning.toml asks for other games than the timetable lists.

        Raises:
            WholeballError: it does, and games have been played.
        """
        if not self.as_planned or not listed:
            return False
        found = differences(said, self.read.season.league.pools, listed)
        if found and played:
            raise refused(found)
        return bool(found)

    def _left(
        self, said: PlanningToml, games: tuple[Pairing, ...], played: frozenset[GameId]
    ) -> frozenset[TeamId]:
        def amount(pool: PoolId, teams: int) -> int:
            return games_each(said, pool, teams)

        return gone(self.read.season.league.pools, games, played, amount)

    def _own_rules(self, said: PlanningToml, games: tuple[Pairing, ...]) -> Iterator[Rule]:
        """Yield what the rulebook and the blocks ask of a timetable."""
        book = self.read.season.rulebook
        league, play_off = league_minutes(book, said), play_off_minutes(book, said)
        yield Rule(
            rule=_LENGTHS[0],
            kind="length",
            strength="must",
            games="league",
            params={"minutes": league},
        )
        if any(one.pool is None for one in games):
            yield Rule(
                rule=_LENGTHS[1],
                kind="length",
                strength="must",
                games="play_off",
                params={"minutes": play_off},
            )
            yield Rule(rule=_AFTER, kind="after", strength="must", params={"minutes": play_off})
        yield from self._blocks()

    def _shared(self, said: PlanningToml, teams: list[TeamId]) -> Iterator[Rule]:
        if said.entry.shared_players is not None:
            minutes = league_minutes(self.read.season.rulebook, said)
            yield from shared_players(self.read.rosters, teams, minutes=minutes)

    def _blocks(self) -> Iterator[Rule]:
        league = self.read.season.league
        for block in league.blocks:
            teams = tuple(one.team for one in league.teams if one.block == block.block)
            if teams:
                yield Rule(
                    rule=f"block {block.block}",
                    kind="block",
                    strength="must",
                    teams=teams,
                    games="league",
                    params={
                        "block": f"{block.block}",
                        "weekday": block.weekday,
                        "opens": f"{block.opens:%H:%M}",
                        "closes": f"{block.closes:%H:%M}",
                    },
                )


def _placed(one: Fixture | OpenFixture) -> Placement:
    return Placement(game=one.game, start=Start(one.day, one.start), field=one.field)


def _pairing(one: Fixture | OpenFixture, pools: Mapping[TeamId, PoolId]) -> Pairing:
    pool = None
    if isinstance(one, Fixture) and one.stage == "league":
        pool = pools.get(one.home)
    return Pairing(game=one.game, home=one.home, away=one.away, round=one.round, pool=pool)
