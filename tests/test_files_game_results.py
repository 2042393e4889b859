"""The results of a season folder come from the logs of its games."""

import tempfile
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.logged import HALF, Timed, certified, log, played
from cases.logged_season import DIGEST, FOLDER, G1, TIMETABLE, recorded, written
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append
from wholeball.game.happenings import Forfeited, Goal, KickTaken, Noted, Rated
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId
from wholeball.season.season import pool_tables


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return written(tmp_path, {})


def note(code: str, says: str, cure: str) -> Fault:
    place = Place(file="games/g1.jsonl")
    return Fault(code=code, place=place, says=says, cure=cure, level="note")


def test_a_certified_game_has_the_result_of_its_log(folder: Path) -> None:
    recorded(folder, "g1", played(3, 2))
    read = read_folder(FolderRecord(folder))
    assert (read.season.results, read.remarks) == ((G1,), ())
    assert read.season.damaged == frozenset()
    assert read.season.days == {GameId("g1"): date(2026, 10, 6)}


def test_a_game_that_is_not_certified_counts_with_a_note(folder: Path) -> None:
    log(folder, "g1", played(3, 2), book=DIGEST)
    read = read_folder(FolderRecord(folder))
    assert read.season.results == (G1,)
    assert read.remarks == (
        note(
            "not_certified",
            "the result counts, and is not certified yet.",
            (
                f"Look at it, then certify it: wholeball game {folder} g1; wholeball certify "
                f"{folder} g1 --by NAME"
            ),
        ),
    )


def test_what_comes_after_the_certification_does_not_count(folder: Path) -> None:
    _late(folder, [*played(3, 2), (2, HALF, Noted(text="late"))])
    read = read_folder(FolderRecord(folder))
    assert read.season.results == (G1,)
    assert read.remarks == (
        note(
            "late",
            (
                "1 entry came after the certification and would change nothing that counts; the "
                "official result is unchanged."
            ),
            f"If they should count: wholeball reopen {folder} g1 --by NAME --reason TEXT",
        ),
    )
    (folder / "games" / "g1.jsonl").unlink()
    _late(folder, [*played(3, 2), (1, 1_999, Goal(side="away"))])
    read = read_folder(FolderRecord(folder))
    assert read.season.results == (G1,)
    assert [(one.code, one.level, one.says) for one in read.remarks] == [
        (
            "late",
            "doubt",
            (
                "1 entry came after the certification and would change the score: 3-2 would become 3-3; "
                "the official result is unchanged."
            ),
        )
    ]


def _late(folder: Path, happened: list[Timed]) -> None:
    """Record a game, and certify all of it but the last entry."""
    entries = log(folder, "g1", happened, book=DIGEST)
    append(FolderRecord(folder), "g1", [certified("g1", entries[:-1], book=DIGEST)])


def test_a_play_off_match_decided_by_kicks_goes_to_the_play_offs(folder: Path) -> None:
    kicks: list[Timed] = [
        (9, n, KickTaken(side="home" if n % 2 else "away", scored=n % 2 == 1))
        for n in range(1, 7)
    ]
    recorded(folder, "p1", [*played(1, 1), *kicks])
    read = read_folder(FolderRecord(folder))
    assert read.season.results == ()
    assert [
        (one.game, one.home_goals, one.away_goals, one.kicks) for one in read.season.play_offs
    ] == [("p1", 1, 1, (3, 0))]


def test_forfeits_and_ratings_of_a_log_are_taken(folder: Path) -> None:
    recorded(folder, "g1", [(0, 0, Forfeited(by="away", why="not_ready"))])
    rated = Rated(side="home", by="official", hundredths=400)
    recorded(folder, "g2", [*played(0, 1), (2, HALF, rated)])
    first, second = read_folder(FolderRecord(folder)).season.results
    assert (first.how, first.by, first.played_score) == ("forfeit", "away", None)
    assert (second.how, second.home_rating) == ("played", Decimal(4))


SCORES = st.lists(
    st.tuples(st.integers(0, 9), st.integers(0, 9), st.booleans()), min_size=3, max_size=3
)


@settings(max_examples=25, deadline=None)
@given(scores=SCORES)
def test_scores_in_logs_make_the_same_standings_as_in_results(
    scores: list[tuple[int, int, bool]],
) -> None:
    fixtures = [line.split(",") for line in TIMETABLE.splitlines()[1:4]]
    rows = [
        f"{game},{round_},{home},{away},{ours},{theirs}\n"
        for (game, round_, _, _, _, home, away, _), (ours, theirs, _) in zip(
            fixtures, scores, strict=True
        )
    ]
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as other:
        plain = written(Path(one), {"results.csv": FOLDER["results.csv"] + "".join(rows)})
        mixed = FOLDER["results.csv"]
        logged = Path(other)
        for row, (home, away, in_log) in zip(rows, scores, strict=True):
            if in_log:
                recorded(logged, row.split(",")[0], played(home, away))
            else:
                mixed += row
        written(logged, {"results.csv": mixed})
        assert tables(read_folder(FolderRecord(logged))) == tables(
            read_folder(FolderRecord(plain))
        )


def tables(read: SeasonFolder) -> list[tuple[int, object]]:
    (pool,) = read.season.league.pools
    return [(one.round, one.standings.rows) for one in pool_tables(read.season, pool)]
