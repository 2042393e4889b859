"""The invented season of Lantern Hill: its order and every reason, worked out by hand."""

from pathlib import Path
from typing import Final

import pytest

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.identity import PoolId
from wholeball.rulebook.criteria import AmongLevel, criterion_name
from wholeball.season.ranking import Question
from wholeball.season.season import pool_tables
from wholeball.season.standings import Standings

FOLDER: Final = Path(__file__).parents[2] / "examples" / "lantern-hill"
Line = tuple[int, str, int, int, int, int, int, int]

# Place, team, won, drawn, lost, goals for and against, points. Extra Thyme's forfeit counts
# 0-4, its default no goals; the game of Library Fines and the Seminars was awarded 4-0.
TABLES: Final[dict[str, list[Line]]] = {
    "Wick": [
        (1, "Nutmeg Theory", 3, 1, 1, 8, 6, 10),
        (2, "Late Submissions", 3, 1, 1, 10, 3, 10),
        (3, "Library Fines", 3, 1, 1, 9, 3, 10),
        (4, "The Overlapping Seminars", 1, 2, 2, 8, 9, 5),
        (5, "Corner Office Hours", 1, 2, 2, 6, 8, 5),
        (6, "Extra Thyme", 0, 1, 4, 2, 14, 1),
    ],
    "Flame": [
        (1, "Roots of Unity", 3, 1, 1, 13, 9, 10),
        (2, "Peer Reviewers", 3, 1, 1, 14, 8, 10),
        (3, "Second Draft", 2, 1, 2, 9, 8, 7),
        (4, "Candle Ends", 2, 1, 2, 9, 8, 7),
        (5, "Borrowed Boots", 0, 2, 3, 7, 13, 2),
        (5, "Sunday Leg-Ends", 0, 2, 3, 7, 13, 2),
    ],
}
# What parts each team from the next: the figure, theirs, the next one's, and of which
# mini-table, counted from 1; nothing for lots still to be drawn.
PARTED: Final[dict[str, list[tuple[str, int, int, int] | None]]] = {
    "Wick": [
        ("h2h_goals", 3, 2, 1),
        ("h2h_points", 3, 0, 2),
        ("points", 10, 5, 0),
        ("difference", -1, -2, 0),
        ("points", 5, 1, 0),
    ],
    "Flame": [
        ("h2h_points", 3, 0, 1),
        ("points", 10, 7, 0),
        ("conduct", -2, -5, 0),
        ("points", 7, 2, 0),
        None,
    ],
}


@pytest.fixture(scope="module", name="folder")
def read() -> SeasonFolder:
    return read_folder(FolderRecord(FOLDER))


def last_table(folder: SeasonFolder, pool: str) -> Standings:
    return pool_tables(folder.season, PoolId(pool))[-1].standings


def name_of(question: Question) -> str:
    if isinstance(question.criterion, AmongLevel):
        return str(question.figure)
    return criterion_name(question.criterion)  # type: ignore[arg-type] # no last resort parts


def test_the_season_is_read_without_a_remark(folder: SeasonFolder) -> None:
    assert folder.remarks == ()
    assert {pool: len(teams) for pool, teams in folder.season.league.pools.items()} == {
        "Wick": 6,
        "Flame": 6,
    }


@pytest.mark.parametrize("pool", list(TABLES))
def test_the_table_is_the_one_worked_out_by_hand(folder: SeasonFolder, pool: str) -> None:
    rows = last_table(folder, pool).rows
    lines = [
        (r.place, r.team, r.won, r.drawn, r.lost, r.goals_for, r.goals_against, r.points)
        for r in rows
    ]
    assert lines == TABLES[pool]
    assert {row.played for row in rows} == {5}


@pytest.mark.parametrize("pool", list(PARTED))
def test_each_team_is_parted_from_the_next_as_by_hand(folder: SeasonFolder, pool: str) -> None:
    found = []
    for one in last_table(folder, pool).neighbours:
        last = one.asked[-1]
        parts = (name_of(last.question), last.above, last.below, last.round)
        found.append(None if one.by is None else parts)
    assert found == PARTED[pool]


def test_lots_are_still_to_be_drawn_between_the_last_two(folder: SeasonFolder) -> None:
    table = last_table(folder, "Flame")
    assert table.unresolved == (("Borrowed Boots", "Sunday Leg-Ends"),)
    assert table.neighbours[4].last_resort == "lots"
    assert last_table(folder, "Wick").unresolved == ()


def test_a_game_can_end_in_every_way_but_being_annulled(folder: SeasonFolder) -> None:
    unplayed = {
        result.game: (result.how, result.by, result.played_score)
        for result in folder.season.results
        if result.how != "played"
    }
    assert unplayed == {
        "W12": ("awarded", None, (2, 2)),
        "W13": ("default", "away", None),
        "W21": ("forfeit", "away", None),
        "F41": ("double_forfeit", None, None),
    }


def test_each_team_meets_each_other_of_its_pool_once(folder: SeasonFolder) -> None:
    pairs = [frozenset((one.home, one.away)) for one in folder.season.results]
    assert len(pairs) == len(set(pairs)) == 30


def test_a_side_with_a_red_is_rated_no_better_than_the_rulebook_allows(
    folder: SeasonFolder,
) -> None:
    cap = folder.season.rulebook.ratings.cap_after_sending_off
    rated = [
        rating
        for one in folder.season.results
        for cards, rating in (
            (one.home_cards, one.home_rating),
            (one.away_cards, one.away_rating),
        )
        if cards is not None and any(cards.in_order[1:])
    ]
    assert len(rated) == 3
    assert all(rating is not None and rating <= cap for rating in rated)


def test_the_play_off_game_was_played_and_certified_and_counts_in_no_table(
    folder: SeasonFolder,
) -> None:
    # 1-1 and 1-1, no goal in overtime, and 3-2 on kicks: P1.toml has it kick by kick.
    [game] = folder.season.play_offs
    assert (game.game, game.home_goals, game.away_goals) == ("P1", 2, 2)
    assert "P1" not in [result.game for result in folder.season.results]
