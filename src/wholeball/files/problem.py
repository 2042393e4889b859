"""Makes the timetable's question of what a season folder holds."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Final

from wholeball.files.folder import SeasonFolder
from wholeball.files.planning import league_minutes, play_off_minutes
from wholeball.files.planning_toml import FILE as PLANNING_FILE
from wholeball.files.planning_toml import PlanningToml, amount_of, unknown_games
from wholeball.files.slots import FILE as SLOTS_FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId, PoolId, SiteId, TeamId
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.planning.gone import gone
from wholeball.planning.pairings import pairings
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
from wholeball.rulebook.sentence import counted

_LENGTHS: Final = ("length of a league game", "length of a play-off game")
_AFTER: Final = "after what brings its sides"


def problem_of(read: SeasonFolder, *, on: datetime | None = None) -> TimetableProblem:
    """Return the question that a season folder asks.

    Its games are those of timetable.csv where that has any, and else those of the pools; games
    of planning.toml's play-offs come to them. What has been played stays where it was; with
    `on`, a local time, all else begins then or later. A team that has left is none of its teams.

    Raises:
        InputFaults: planning.toml names games that there are not.
        WholeballError: there is nothing to plan by, or the games cannot be counted out.
    """
    return _Question(read, on).problem()


@dataclass(frozen=True, slots=True)
class _Question:
    read: SeasonFolder
    on: datetime | None

    def problem(self) -> TimetableProblem:
        said = self._said()
        fixtures = self._fixtures()
        announced = tuple(_placed(one) for one in fixtures.values())
        played = {one.game: one for one in announced if one.game in self._played()}
        open_slots, closed = self._slots(played)
        games = (*self._games(said, fixtures, len(open_slots)), *self._to_come(said, fixtures))
        faults = unknown_games(said, games)
        if faults:
            raise InputFaults(faults)
        league = self.read.season.league
        left = self._left(said, games, frozenset(played)) if fixtures else frozenset()
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
                fix="Write one: docs/howto/plan-the-timetable.md has an example.",
                code="missing_file",
            )
        if not planning.slots:
            raise WholeballError(
                f"There is no slot to play in: {SLOTS_FILE} is missing or has no row.",
                fix="Give it a row for each field and weekday.",
                code="missing_file",
            )
        return planning.said

    def _fixtures(self) -> Mapping[GameId, Fixture | OpenFixture]:
        both: tuple[Fixture | OpenFixture, ...] = (
            *self.read.timetable,
            *self.read.open_fixtures,
        )
        return {one.game: one for one in both}

    def _played(self) -> frozenset[GameId]:
        season = self.read.season
        results = (*season.results, *season.play_offs, *season.outside.play_offs)
        return frozenset(
            (
                *(one.game for one in results),
                *self.read.rows,
                *(sheet.fixture.game for sheet in self.read.sheets),
            )
        )

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
        sites = {one.field: one.site for one in self.read.fields}
        for start, field in sorted(where):
            yield Slot(
                field=field,
                site=sites.get(field, SiteId("")),
                night=start.night,
                at=start.at,
                minutes=minutes,
            )

    def _games(
        self, said: PlanningToml, fixtures: Mapping[GameId, Fixture | OpenFixture], places: int
    ) -> tuple[Pairing, ...]:
        league = self.read.season.league
        if fixtures:
            pools = {one.team: one.pool for one in league.teams}
            return tuple(_pairing(one, pools) for one in fixtures.values())
        if self.read.rows:
            raise WholeballError(
                f"results.csv has games, and {TIMETABLE_FILE} has none.",
                fix=f"Write the games that were played into {TIMETABLE_FILE} first.",
                code="contradiction",
            )
        amounts = {
            pool: self._amount(said, pool, teams) for pool, teams in league.pools.items()
        }
        needed = sum(games for _, _, games in amounts.values())
        if needed > places:
            raise _infeasible(
                f"{counted(needed, 'game needs', 'games need')} {counted(needed, 'place')}, and "
                f"there {'is' if places == 1 else 'are'} {places:,}: {needed - places:,} too few.",
                "Open more fields or nights in slots.csv, or let each team play fewer games.",
            )
        found: list[Pairing] = []
        for pool, (games_each, meetings, _) in amounts.items():
            found += pairings(
                {pool: league.pools[pool]},
                games_each=games_each,
                meetings=meetings,
                first=len(found) + 1,
            )
        return tuple(found)

    def _amount(
        self, said: PlanningToml, pool: PoolId, teams: tuple[TeamId, ...]
    ) -> tuple[int | None, int, int]:
        """Return the games each, the meetings, and how many games a pool has in all."""
        amount, number = amount_of(said.entry, pool), len(teams)
        if number < 2:
            raise _infeasible(
                f"Pool {pool} has {counted(number, 'team')}, and nobody to play.",
                "Give it another team in teams.csv, or put the team into another pool.",
            )
        if number % 2 and not said.entry.byes:
            raise _infeasible(
                f"Pool {pool} has {number} teams, an odd number, which needs byes.",
                "Write byes = true in planning.toml, or add a team.",
            )
        if amount.games_each is None:
            return None, amount.meetings, number * (number - 1) // 2 * amount.meetings
        if number * amount.games_each % 2:
            raise _infeasible(
                f"The {number} teams of pool {pool} cannot play {amount.games_each} games each: "
                "both are odd.",
                "Change games_each by one, or the number of teams.",
            )
        return amount.games_each, 1, number * amount.games_each // 2

    def _left(
        self, said: PlanningToml, games: tuple[Pairing, ...], played: frozenset[GameId]
    ) -> frozenset[TeamId]:
        def amount(pool: PoolId, teams: int) -> int:
            own = amount_of(said.entry, pool)
            meets = (teams - 1) * own.meetings
            return meets if own.games_each is None else own.games_each

        return gone(self.read.season.league.pools, games, played, amount)

    def _to_come(
        self, said: PlanningToml, fixtures: Mapping[GameId, Fixture | OpenFixture]
    ) -> Iterator[Pairing]:
        """Yield the play-offs of planning.toml that timetable.csv does not list yet."""
        yield from (one for one in said.play_offs if one.game not in fixtures)

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


def _infeasible(says: str, fix: str) -> WholeballError:
    return WholeballError(
        says, fix=f"{fix} {TIMETABLE_FILE} was not touched.", code="infeasible"
    )
