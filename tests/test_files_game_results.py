"""The results of a season folder come from the logs of its games, and from rulings."""

import tempfile
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Final

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.logged import HALF, Timed, certified, certify, log, played
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append
from wholeball.game.envelope import stored_line
from wholeball.game.happenings import (
    BrokenOff,
    Forfeited,
    Goal,
    KickTaken,
    Noted,
    PeriodStarted,
    Rated,
)
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.not_as_played import not_as_played
from wholeball.rulebook.load import load
from wholeball.season.result import CardCounts, Result
from wholeball.season.ruling import Ruling
from wholeball.season.season import pool_tables

BOOK: Final = """base = "laws-2025-26"
ties = { league = "draw", play_off = "kicks" }
ratings.by = "officials"
resumption.broken_off_by_side = "coordinator"
standings = { criteria = ["points", "difference", "goals"], last_resort = "shared" }
"""
DIGEST: Final = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
TIMETABLE: Final = """game,round,date,start,field,home,away,stage
g1,1,2026-10-06,19:00,North,Herons,Otters,
g2,1,2026-10-06,20:00,North,Voles,Herons,
g3,2,2026-10-13,19:00,North,Otters,Voles,
p1,3,2026-10-20,19:00,North,Herons,Otters,play_off
"""
FOLDER: Final = {
    "season.toml": """schema = 1
name = "Lantern Hill"
timezone = "Europe/London"
first_day = 2026-09-01
last_day = 2026-12-01
""",
    "rulebook.toml": BOOK,
    "teams.csv": "team\nHerons\nOtters\nVoles\n",
    "results.csv": "game,round,home,away,home_goals,away_goals\n",
    "timetable.csv": TIMETABLE,
}
RULINGS: Final = "ruling,date,game,ruled,by,home_goals,away_goals,ref,why\n"
AWARDED: Final = RULINGS + "4,2026-10-09,g1,awarded,,0,3,H 3.5,An ineligible player\n"
NONE: Final = CardCounts()
G1: Final = Result(
    game=GameId("g1"),
    round=1,
    home=TeamId("Herons"),
    away=TeamId("Otters"),
    home_goals=3,
    away_goals=2,
    home_cards=NONE,
    away_cards=NONE,
)
PLAIN: Final = FOLDER["results.csv"] + "g1,1,Herons,Otters,3,2\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return written(tmp_path, {})


def written(at: Path, changed: dict[str, str]) -> Path:
    for name, text in (FOLDER | changed).items():
        (at / name).write_text(text, encoding="utf-8")
    return at


def recorded(folder: Path, game: str, happened: list[Timed]) -> None:
    certify(folder, game, log(folder, game, happened, book=DIGEST), book=DIGEST)


def faults_of(folder: Path) -> tuple[Fault, ...]:
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(folder))
    return refused.value.faults


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


@pytest.mark.parametrize(
    ("happened", "code"),
    [
        ([(1, 0, PeriodStarted())], "not_ended"),
        (played(3, 2)[:-1], "not_ended"),
        (
            [(1, 0, PeriodStarted()), (1, 90, BrokenOff(why="disorder", to_blame="away"))],
            "to_coordinator",
        ),
    ],
)
def test_a_game_that_goes_on_or_waits_has_no_result_until_a_ruling_gives_it_one(
    folder: Path, happened: list[Timed], code: str
) -> None:
    recorded(folder, "g1", happened)
    read = read_folder(FolderRecord(folder))
    assert read.season.results == ()
    assert [(one.code, one.level) for one in read.remarks] == [(code, "note")]
    written(folder, {"rulings.csv": AWARDED})
    read = read_folder(FolderRecord(folder))
    assert [(one.how, one.home_goals, one.away_goals) for one in read.season.results] == [
        ("awarded", 0, 3)
    ]
    assert read.remarks == ()


def test_a_game_that_waits_and_stands_by_a_ruling_counts_as_played_without_a_remark(
    folder: Path,
) -> None:
    broken = (1, 2000, BrokenOff(why="disorder", to_blame="away"))
    recorded(folder, "g1", [*played(3, 2)[:-3], broken])
    stands = RULINGS + "4,2026-10-08,g1,stands,,,,H 12,It was nearly over.\n"
    read = read_folder(FolderRecord(written(folder, {"rulings.csv": stands})))
    assert [(one.how, one.home_goals, one.away_goals) for one in read.season.results] == [
        ("played", 3, 2)
    ]
    assert read.remarks == ()


def test_a_ruling_changes_the_result_of_a_log_and_keeps_the_score_played(folder: Path) -> None:
    recorded(folder, "g1", played(3, 2))
    read = read_folder(FolderRecord(written(folder, {"rulings.csv": AWARDED})))
    assert read.season.results == (
        replace(
            G1,
            how="awarded",
            home_goals=0,
            away_goals=3,
            played_score=(3, 2),
            ruling=4,
            before="played",
        ),
    )
    assert read.season.rulings == (
        Ruling(
            number=4,
            game=GameId("g1"),
            day=date(2026, 10, 9),
            ruled="awarded",
            goals=(0, 3),
            ref="H 3.5",
            why="An ineligible player",
        ),
    )


def test_a_ruling_changes_a_result_of_results_csv_too(folder: Path) -> None:
    read = read_folder(
        FolderRecord(written(folder, {"results.csv": PLAIN, "rulings.csv": AWARDED}))
    )
    plain = replace(G1, home_cards=None, away_cards=None)
    assert read.season.results == (
        replace(
            plain,
            how="awarded",
            home_goals=0,
            away_goals=3,
            played_score=(3, 2),
            ruling=4,
            before="played",
        ),
    )


def test_a_ruling_gives_a_game_a_result_that_was_never_played(folder: Path) -> None:
    rows = RULINGS + "1,,g2,forfeit,away,,,H 4,Did not come\n2,,g3,stands,,,,H 9,No protest\n"
    read = read_folder(FolderRecord(written(folder, {"rulings.csv": rows})))
    assert [(one.game, one.how, one.by, one.ruling) for one in read.season.results] == [
        ("g2", "forfeit", "away", 1)
    ]
    assert read.remarks == (
        Fault(
            code="no_result",
            place=Place(file="rulings.csv"),
            says="ruling 2 lets game g3 stand, which has no result.",
            value="g3",
            cure="Enter the game, or mend the ruling.",
            level="doubt",
        ),
    )


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


def test_a_game_with_a_log_and_a_row_in_results_is_a_fault_naming_both(folder: Path) -> None:
    recorded(folder, "g1", played(3, 2))
    written(folder, {"results.csv": PLAIN})
    assert faults_of(folder) == (
        Fault(
            code="duplicate",
            place=Place(file="results.csv", row=2, column="game"),
            says="game g1 has a result here and a log, games/g1.jsonl.",
            value="g1",
            cure="A result stands once: take the row out, or the log.",
        ),
    )
    (folder / "games" / "g1.jsonl").write_bytes(b"")
    assert len(read_folder(FolderRecord(folder)).season.results) == 1


def test_a_log_without_a_row_in_the_timetable_is_a_doubt(folder: Path) -> None:
    recorded(folder, "g11", played(3, 2))
    recorded(folder, "quite other", played(3, 2))
    read = read_folder(FolderRecord(folder))
    assert read.season.results == ()
    assert [(one.place.file, one.level, one.cure) for one in read.remarks] == [
        (
            "games/g11.jsonl",
            "doubt",
            "Add a row for it to timetable.csv; if it is game g1 there, write g11 in that row.",
        ),
        ("games/quite other.jsonl", "doubt", "Add a row for it to timetable.csv."),
    ]
    assert read.remarks[0].says == (
        "g11 is no game of timetable.csv; its log counts for nothing."
    )


def test_other_files_beside_the_logs_are_passed_over_and_odd_names_doubted(
    folder: Path,
) -> None:
    recorded(folder, "g1", played(3, 2))
    games = folder / "games"
    (games / ".g1.jsonl").write_bytes(b"x")
    (games / "g1.txt").write_bytes(b"x")
    (games / "caf\u00e9.jsonl").write_bytes(b"x")
    read = read_folder(FolderRecord(folder))
    assert [(one.place.file, str(one)) for one in read.remarks] == [
        (
            "games/caf\u00e9.jsonl",
            (
                "games/caf\u00e9.jsonl: caf\u00e9 is no name that a log can have. "
                "Take the file out."
            ),
        )
    ]


def test_a_broken_chain_is_a_doubt_with_device_and_number_and_the_game_counts(
    folder: Path,
) -> None:
    entries = log(folder, "g1", played(3, 2), book=DIGEST)
    kept = [*entries, certified("g1", entries, book=DIGEST)]
    torn = [one for one in kept if (one.said.dev, one.said.seq) != ("phone", len(entries))]
    lines = b"".join(stored_line(one) + b"\n" for one in torn)
    (folder / "games" / "g1.jsonl").write_bytes(lines)
    read = read_folder(FolderRecord(folder))
    assert [(one.code, one.level, one.says) for one in read.remarks] == [
        (
            "head",
            "doubt",
            "Device phone had written up to entry 9, and the log ends before it.",
        ),
        (
            "not_ended",
            "note",
            "the game has not ended by what counts of its log, and has no result yet.",
        ),
    ]
    swapped = [one._replace(hash="0" * 64) if one.said.seq == 3 else one for one in entries]
    lines = b"".join(stored_line(one) + b"\n" for one in swapped)
    (folder / "games" / "g1.jsonl").write_bytes(lines)
    written(folder, {"rulings.csv": AWARDED})
    read = read_folder(FolderRecord(folder))
    assert [one.played_score for one in read.season.results] == [(1, 0)]
    assert read.season.damaged == {GameId("g1")}
    (pool,) = read.season.league.pools
    told = not_as_played(read.season, pool, shown=1, is_newest=True, names={})
    assert [str(one.says) for one in told][-1] == (
        "Game g1, Herons v Otters: counts by what can be read; part of its log is damaged."
    )
    assert [one.says for one in read.remarks] == [
        "Entry 3 of device phone is not as it was written; it and what follows are left out."
    ]


def test_malformed_lines_of_every_log_are_faults_beside_those_of_the_tables(
    folder: Path,
) -> None:
    (folder / "games").mkdir()
    (folder / "games" / "g1.jsonl").write_bytes(b"{}\n[]\n")
    (folder / "games" / "g2.jsonl").write_bytes(b"x")
    (folder / "games" / "g3.jsonl").mkdir()
    written(folder, {"teams.csv": "team\nHerons\nherons\nOtters\nVoles\n"})
    assert [(one.place.file, one.place.line, one.code) for one in faults_of(folder)] == [
        ("teams.csv", None, "duplicate"),
        ("games/g1.jsonl", 1, "syntax"),
        ("games/g1.jsonl", 2, "syntax"),
        ("games/g2.jsonl", 1, "torn"),
        ("games/g3.jsonl", None, "storage"),
    ]


def test_a_file_in_place_of_the_folder_of_logs_is_named(folder: Path) -> None:
    games = folder / "games"
    games.write_bytes(b"")
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [("games/", "storage")]
    games.unlink()
    games.symlink_to(folder / "elsewhere")
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [("games/", "storage")]


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


def test_a_ruling_about_no_game_is_offered_the_nearest_of_both_tables(folder: Path) -> None:
    rows = RULINGS + "1,,g11,annulled,,,,H 1,x\n2,,h77,annulled,,,,H 1,x\n"
    plain = FOLDER["results.csv"] + "h71,1,Herons,Otters,3,2\n"
    written(folder, {"rulings.csv": rows, "results.csv": plain})
    assert [(one.place.row, one.code, one.cure) for one in faults_of(folder)] == [
        (2, "unknown_game", "Did you mean g1?"),
        (3, "unknown_game", "Did you mean h71?"),
    ]


@pytest.mark.parametrize("file", ["results.csv", "timetable.csv"])
def test_a_row_that_could_not_be_read_makes_no_ruling_about_its_game_wrong(
    folder: Path, file: str
) -> None:
    rulings = RULINGS + "1,,g2,annulled,,,,H 1,x\n"
    bad = {
        "results.csv": FOLDER["results.csv"] + "g2,1,Voles,Herons,x,2\n",
        "timetable.csv": TIMETABLE.replace("g2,1", "g2,x"),
    }
    written(folder, {"rulings.csv": rulings, file: bad[file]})
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [(file, "type")]


def test_rulings_without_a_league_to_hold_them_to_are_looked_at_cell_by_cell(
    folder: Path,
) -> None:
    rulings = RULINGS + "x,,nowhere,annulled,,,,H 1,x\n"
    written(folder, {"rulings.csv": rulings})
    (folder / "teams.csv").unlink()
    assert [(one.place.file, one.code) for one in faults_of(folder)] == [
        ("teams.csv", "missing_file"),
        ("rulings.csv", "type"),
    ]
