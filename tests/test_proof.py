"""Published group stages, computed from their folders and held to the published tables.

Source: the published results and group tables of the FIFA World Cups 1990 and 2022 and of
UEFA Euro 2024 (public record, from memory). What parted level teams is worked out by hand from
the competitions' regulations (from memory).
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from pathlib import Path
from typing import TypeAlias

import pytest

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.published import FILE, read_published
from wholeball.files.table import Table
from wholeball.kernel.identity import PoolId, TeamId
from wholeball.rulebook.criteria import criterion_name
from wholeball.season.published import PublishedLine
from wholeball.season.ranking import Question
from wholeball.season.reasons import Separation
from wholeball.season.season import Season, pool_tables
from wholeball.season.standings import Standings

PROOF = Path(__file__).parents[1] / "examples" / "proof"
PARTED = {
    "euro-2024": [
        "Denmark above Slovenia by outside_ranking",
        "Romania above Belgium by h2h_goals",
        "Belgium above Slovakia by h2h_difference",
        "Slovakia above Ukraine by h2h_difference",
        "Portugal above Türkiye by h2h_points",
    ],
    "world-cup-1990": [
        "Romania above Argentina by goals",
        "Ireland above Netherlands by lots",
    ],
    "world-cup-2022": [
        "Poland above Mexico by difference",
        "France above Australia by difference",
        "Spain above Germany by difference",
        "Brazil above Switzerland by difference",
        "South Korea above Uruguay by goals",
    ],
}
"""Neighbours that points do not part, and what does."""

Line: TypeAlias = tuple[int, TeamId, tuple[int | None, ...]]
"""Place, team, and its figures: played, won, drawn, lost, goals for and against, points."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """One folder as read, and the table that was published."""

    name: str
    read: SeasonFolder
    rows: tuple[PublishedLine, ...]
    table: Table

    @property
    def season(self) -> Season:
        return self.read.season


@pytest.fixture(scope="module", params=sorted(PARTED))
def proof(request: pytest.FixtureRequest) -> Proof:
    folder = PROOF / str(request.param)
    read = read_folder(FolderRecord(folder))
    rows, table = read_published((folder / FILE).read_bytes(), read.season.league)
    return Proof(name=folder.name, read=read, rows=rows, table=table)


def test_each_folder_of_the_proof_is_held_to_its_tables() -> None:
    assert sorted(one.name for one in PROOF.iterdir()) == sorted(PARTED)


def test_the_folder_reads_without_a_fault_or_a_doubt(proof: Proof) -> None:
    assert proof.read.remarks == ()
    assert proof.table.faults == []


def test_the_published_table_has_each_team_once_with_all_its_figures(proof: Proof) -> None:
    teams = sorted(one.team for one in proof.season.league.teams)
    assert sorted(row.team for row in proof.rows) == teams
    assert all(None not in row.figures for row in proof.rows)


def test_each_two_teams_of_a_group_met_once(proof: Proof) -> None:
    met = Counter(frozenset((one.home, one.away)) for one in proof.season.results)
    pools = proof.season.league.pools.values()
    assert met == Counter(frozenset(pair) for pool in pools for pair in combinations(pool, 2))


def test_order_and_figures_of_every_group_are_those_published(proof: Proof) -> None:
    assert _computed(proof.season) == _published(proof)


def test_no_two_teams_are_left_level(proof: Proof) -> None:
    assert [table.unresolved for table in _tables(proof.season).values()] == [
        () for _ in proof.season.league.pools
    ]


def test_level_teams_are_parted_by_what_the_regulation_names(proof: Proof) -> None:
    assert list(_parted(proof.season)) == PARTED[proof.name]


def test_one_goal_more_in_any_game_is_no_longer_the_published_table(proof: Proof) -> None:
    told = _published(proof)
    for number, result in enumerate(proof.season.results):
        changed = replace(result, home_goals=result.home_goals + 1)
        results = proof.season.results
        season = replace(
            proof.season, results=(*results[:number], changed, *results[number + 1 :])
        )
        assert _computed(season) != told, result.game


def test_ireland_stands_second_in_1990_by_the_draw_that_the_folder_names() -> None:
    season = read_folder(FolderRecord(PROOF / "world-cup-1990")).season
    lot = _tables(season)[PoolId("F")].neighbours[1].asked[-1]
    assert (lot.draw, lot.above, lot.below) == (season.outside.lots[0].label, 1, 2)


def test_ireland_and_the_netherlands_are_level_in_1990_without_the_draw() -> None:
    season = read_folder(FolderRecord(PROOF / "world-cup-1990")).season
    undrawn = replace(season, outside=replace(season.outside, lots=()))
    assert _tables(undrawn)[PoolId("F")].unresolved == (("Ireland", "Netherlands"),)


def _tables(season: Season) -> dict[PoolId, Standings]:
    return {pool: pool_tables(season, pool)[-1].standings for pool in season.league.pools}


def _computed(season: Season) -> dict[PoolId, list[Line]]:
    return {
        pool: [
            (
                row.place,
                row.team,
                (
                    row.played,
                    row.won,
                    row.drawn,
                    row.lost,
                    row.goals_for,
                    row.goals_against,
                    row.points,
                ),
            )
            for row in table.rows
        ]
        for pool, table in _tables(season).items()
    }


def _published(proof: Proof) -> dict[PoolId, list[Line]]:
    rows = sorted(proof.rows, key=lambda row: row.place)
    return {
        pool: [(row.place, row.team, row.figures) for row in rows if row.team in teams]
        for pool, teams in proof.season.league.pools.items()
    }


def _parted(season: Season) -> Iterator[str]:
    for table in _tables(season).values():
        for separation in table.neighbours:
            by = _by(separation)
            if by != "points":
                yield f"{separation.above} above {separation.below} by {by}"


def _by(separation: Separation) -> str:
    return "nothing" if separation.by is None else _name(separation.by)


def _name(question: Question) -> str:
    criterion = question.criterion
    if question.figure is not None:
        return question.figure
    return criterion if isinstance(criterion, str) else criterion_name(criterion)
