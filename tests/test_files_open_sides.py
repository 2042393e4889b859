"""Play-off games whose sides are still to be known are read, filled as results come, or refused."""

from datetime import date, time
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.logged import log, played
from wholeball.files.bracket import read_brackets
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.open_sides import open_side
from wholeball.files.row_faults import Known
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.identity import GameId, TeamId
from wholeball.league.fixture import From, OpenFixture, OpenSide, Seeded
from wholeball.rulebook.load import load

BOOK = 'base = "laws-2025-26"\n'
HEAD = "game,round,date,start,field,home,away,stage\n"
RESULTS = "game,round,home,away,home_goals,away_goals,how,by,stage,home_kicks,away_kicks\n"
SEMIS = (
    "P1,8,2026-11-10,19:00,1,seed 1,seed 4,play_off\n"
    "P2,8,2026-11-10,19:00,2,Seed 2,seed 3,play_off\n"
)
LAST = (
    "P3,9,2026-11-17,19:00,1,winner of P1,Winner Of P2,play_off\n"
    "P4,9,2026-11-17,19:00,2,loser of P1,loser of P2,play_off\n"
)
DRAW = "seed,team\n1,Reds\n2,Blues\n3,Pinks\n4,Greens\n"
FILES = {
    "season.toml": 'schema = 1\nname = "Lantern Hill"\ntimezone = "Europe/London"\n'
    "first_day = 2026-09-01\nlast_day = 2026-12-01\n",
    "rulebook.toml": BOOK,
    "teams.csv": "team,pool\nReds,A\nPinks,A\nBlues,B\nGreens,B\n",
    "results.csv": RESULTS,
    "timetable.csv": HEAD + SEMIS + LAST,
    "bracket.csv": DRAW,
}
RULED = "ruling,game,ruled,by,home_goals,away_goals,ref,why\n"


def written(at: Path, changed: dict[str, str | None]) -> Path:
    for name, text in {**FILES, **changed}.items():
        if text is not None:
            (at / name).write_text(text, encoding="utf-8")
    return at


def read(at: Path, changed: dict[str, str | None]) -> SeasonFolder:
    return read_folder(FolderRecord(written(at, changed)))


def faults(at: Path, changed: dict[str, str | None]) -> list[tuple[str, str, str, str]]:
    with pytest.raises(InputFaults) as refused:
        read_folder(FolderRecord(written(at, changed)))
    return [(str(one.place), one.code, one.says, one.cure) for one in refused.value.faults]


def sides(read: SeasonFolder) -> dict[str, str]:
    return {str(one.game): f"{one.home} v {one.away}" for one in read.timetable}


def test_the_words_for_an_open_side_are_read_in_any_case_and_with_any_spaces() -> None:
    meant: dict[str, OpenSide | None] = {
        "seed 3": Seeded(seed=3),
        "SEED  12": Seeded(seed=12),
        "seed 2 of Gold cup": Seeded(seed=2, bracket="Gold cup"),
        "Winner of P 1": From(game=GameId("P 1")),
        "loser  OF P1": From(game=GameId("P1"), takes="loser"),
        "seed": None,
        "seed3": None,
        "winner P1": None,
        "winners of P1": None,
    }
    assert {words: open_side(words) for words in meant} == meant


@pytest.mark.parametrize("words", ["seed 3", "seed 2 of Gold", "winner of P1", "loser of P1"])
def test_an_open_side_is_shown_in_the_words_it_is_read_from(words: str) -> None:
    assert str(open_side(words)) == words


def test_before_the_draw_every_side_is_still_to_be_known(tmp_path: Path) -> None:
    found = read(tmp_path, {"bracket.csv": None})
    assert (found.timetable, found.remarks, found.bracket) == ((), (), ())
    assert found.open_fixtures[0] == OpenFixture(
        game=GameId("P1"),
        round=8,
        day=date(2026, 11, 10),
        start=time(19),
        field="1",
        home=Seeded(seed=1),
        away=Seeded(seed=4),
    )
    assert [one.game for one in found.open_fixtures] == ["P1", "P2", "P3", "P4"]


def test_the_draw_fills_the_first_games_and_results_of_every_kind_the_next(
    tmp_path: Path,
) -> None:
    found = read(tmp_path, {"results.csv": RESULTS + "P1,8,Reds,Greens,1,1,,,play_off,3,4\n"})
    assert found.bracket == ("Reds", "Blues", "Pinks", "Greens")
    assert sides(found) == {"P1": "Reds v Greens", "P2": "Blues v Pinks"}
    assert [one.game for one in found.open_fixtures] == ["P3", "P4"]
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    log(tmp_path, "P2", played(0, 2), book=book)
    log(tmp_path, "P3", played(1, 0), book=book)
    again = read(
        tmp_path, {"results.csv": RESULTS + "P1,8,Reds,Greens,,,forfeit,home,play_off,,\n"}
    )
    assert sides(again) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": "Greens v Pinks",
        "P4": "Reds v Blues",
    }
    assert again.open_fixtures == ()
    assert [(one.game, one.home, one.away) for one in again.season.play_offs] == [
        ("P1", "Reds", "Greens"),
        ("P2", "Blues", "Pinks"),
        ("P3", "Greens", "Pinks"),
    ]


def test_a_ruling_brings_a_side_to_a_game_that_was_never_played(tmp_path: Path) -> None:
    found = read(
        tmp_path,
        {
            "results.csv": RESULTS + "P1,8,Reds,Greens,2,1,,,play_off,,\n",
            "rulings.csv": RULED
            + "1,P1,awarded,,0,3,H,x\n2,P2,forfeit,away,,,H,x\n3,P3,forfeit,home,,,H,x\n",
        },
    )
    assert sides(found) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": "Greens v Blues",
        "P4": "Reds v Pinks",
    }
    assert found.remarks == ()


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ("P1,8,Reds,Greens,2,2,,,play_off,,\n", "ended level at 2-2"),
        ("P1,8,Reds,Greens,,,double_forfeit,,play_off,,\n", "was forfeited by both sides"),
        ("P1,8,Reds,Greens,,,annulled,,play_off,,\n", "is annulled"),
    ],
)
def test_a_game_that_nobody_won_brings_nobody_and_is_named(
    tmp_path: Path, row: str, why: str
) -> None:
    found = read(tmp_path, {"results.csv": RESULTS + row})
    says = f"is nobody: game P1, Reds v Greens, {why}."
    cure = "Rule on game P1 in rulings.csv, or write the team that plays here."
    assert found.remarks == tuple(
        Fault(
            code="no_winner",
            place=Place(file="timetable.csv", row=at, column="home"),
            says=f"{side} of P1 {says}",
            cure=cure,
            level="doubt",
        )
        for at, side in ((4, "winner"), (5, "loser"))
    )
    assert [one.game for one in found.open_fixtures] == ["P3", "P4"]


def test_the_log_of_a_game_whose_sides_are_open_is_refused_with_faults_elsewhere(
    tmp_path: Path,
) -> None:
    log(tmp_path, "P3", played(1, 0), book="0" * 64)
    assert faults(tmp_path, {"rosters.csv": "team,name\nRedz,Ana\n"}) == [
        (
            "rosters.csv row 2, column team",
            "unknown_team",
            '"Redz" is no team of teams.csv.',
            "Did you mean Reds?",
        ),
        (
            "games/P3.jsonl",
            "contradiction",
            "game P3 is winner of P1 v winner of P2, and has a log already.",
            "Write the teams that play it in timetable.csv, or take the log out.",
        ),
    ]


@pytest.mark.parametrize("words", [["game"], ["certify", "--by", "Kim"]])
def test_a_command_about_a_game_whose_sides_are_open_says_so(
    tmp_path: Path, run: Run, words: list[str]
) -> None:
    command, *more = words
    told = run(command, written(tmp_path, {}), "P3", *more)
    assert (told.status, " ".join(told.err.split())) == (
        1,
        (
            "Game P3 is winner of P1 v winner of P2, still to be known. Enter the games before it, "
            "or write its teams in timetable.csv."
        ),
    )
    assert "There is no game P9" in run(command, tmp_path, "P9", *more).err


def test_a_ruling_about_a_game_whose_sides_are_open_is_a_doubt(tmp_path: Path) -> None:
    found = read(tmp_path, {"rulings.csv": RULED + "1,P3,annulled,,,,H,x\n"})
    assert [(one.level, one.code, one.says) for one in found.remarks] == [
        ("doubt", "open_side", "ruling 1 is about game P3, whose sides are still to be known.")
    ]


def test_a_result_that_was_written_down_keeps_its_sides_whatever_a_later_ruling_changes(
    tmp_path: Path,
) -> None:
    rows = (
        "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
        "P3,9,Reds,Blues,1,0,,,play_off,,\n"
    )
    before = read(tmp_path, {"results.csv": RESULTS + rows})
    assert (before.remarks, sides(before)["P3"]) == ((), "Reds v Blues")
    after = read(
        tmp_path,
        {"results.csv": RESULTS + rows, "rulings.csv": RULED + "1,P1,forfeit,home,,,H,x\n"},
    )
    assert sides(after) == {**sides(before), "P4": "Reds v Pinks"}
    assert after.remarks == (
        Fault(
            code="contradiction",
            place=Place(file="results.csv", row=4, column="home"),
            says=(
                "game P3 is Reds v Blues here; by the draw and the games before it, it would be "
                "Greens v Blues."
            ),
            cure="It stays as it was played; mend it if a name is wrong.",
            level="doubt",
        ),
    )


@pytest.mark.parametrize(
    ("day", "final"),
    [
        ("2026-11-17", "Greens v Blues"),
        ("2026-11-18", "Reds v Blues"),
        ("", "Reds v Blues"),
    ],
)
def test_a_game_with_a_log_is_of_those_who_came_by_the_rulings_up_to_its_day(
    tmp_path: Path, day: str, final: str
) -> None:
    """P3 is of the 17th: whoever is shown yellow in it plays for a team that was there."""
    rows = "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    log(tmp_path, "P3", played(1, 0), book=book)
    dated = RULED.replace("game,", "date,game,") + f"1,{day},P1,forfeit,home,,,H,x\n"
    found = read(tmp_path, {"results.csv": RESULTS + rows, "rulings.csv": dated})
    assert sides(found) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": final,
        "P4": "Reds v Pinks",
    }
    [result] = [one for one in found.season.play_offs if one.game == "P3"]
    assert f"{result.home} v {result.away}" == final
    doubted = Fault(
        code="contradiction",
        place=Place(file="games/P3.jsonl"),
        says="game P3 was played by Reds v Blues; by a ruling since, it would be Greens v Blues.",
        cure="It stays so. A ruling made before it has an earlier day in rulings.csv.",
        level="doubt",
    )
    doubts = [one for one in found.remarks if one.level == "doubt"]
    assert doubts == ([] if final == "Greens v Blues" else [doubted])


def test_whoever_rules_reads_which_later_game_it_would_have_changed(
    tmp_path: Path, run: Run
) -> None:
    rows = "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    log(tmp_path, "P3", played(1, 0), book=book)
    folder = written(tmp_path, {"results.csv": RESULTS + rows})
    words = ("award", folder, "P1", "--to", "away", "--why", "x", "--ref", "H", "--on")
    said = "game P3 was played by Reds v Blues; by a ruling since, it would be Greens v Blues."
    assert said in run(*words, "2026-11-18").err
    assert said not in run(*words, "2026-11-18").err
    (folder / "rulings.csv").unlink()
    assert said not in run(*words, "2026-11-17").err


def test_what_a_game_was_played_by_brings_the_next_its_side(tmp_path: Path) -> None:
    """The ruling came after P3 and before P5, which P3 brings a side."""
    rows = "P1,8,Reds,Greens,2,1,,,play_off,,\nP2,8,Blues,Pinks,2,1,,,play_off,,\n"
    more = "P5,10,2026-11-24,19:00,1,winner of P3,winner of P4,play_off\n"
    book = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
    for game in ("P3", "P4", "P5"):
        log(tmp_path, game, played(1, 0), book=book)
    dated = RULED.replace("game,", "date,game,")
    found = read(
        tmp_path,
        {
            "timetable.csv": HEAD + SEMIS + LAST + more,
            "results.csv": RESULTS + rows,
            "rulings.csv": dated
            + "1,2026-11-20,P2,forfeit,home,,,H,x\n2,2026-11-30,P3,forfeit,home,,,H,x\n",
        },
    )
    assert sides(found) == {
        "P1": "Reds v Greens",
        "P2": "Blues v Pinks",
        "P3": "Reds v Blues",
        "P4": "Greens v Pinks",
        "P5": "Reds v Greens",
    }


def test_a_team_that_would_meet_itself_is_a_doubt_and_its_game_stays_open(
    tmp_path: Path,
) -> None:
    row = "P3,9,2026-11-17,19:00,1,winner of P1,Reds,play_off\n"
    found = read(
        tmp_path,
        {
            "timetable.csv": HEAD + SEMIS + row,
            "results.csv": RESULTS + "P1,8,Reds,Greens,2,1,,,play_off,,\n",
        },
    )
    assert [(one.code, one.says) for one in found.remarks] == [
        ("self", "game P3 would be Reds against itself: winner of P1 v Reds.")
    ]
    assert [one.game for one in found.open_fixtures] == ["P3"]


def at(row: int, column: str) -> str:
    return f"timetable.csv row {row}, column {column}"


EARLIER = "Mend the days or starts, or the game named."
CASES: dict[str, tuple[str, list[tuple[str, str, str, str]]]] = {
    "an unknown game": (
        "P3,9,2026-11-17,19:00,1,winner of p01,seed 1,play_off\n",
        [
            (
                at(4, "home"),
                "unknown_game",
                '"p01" is no play-off game of timetable.csv.',
                "Did you mean P1?",
            ),
            (
                at(4, "away"),
                "duplicate",
                "seed 1 stands on row 2 too.",
                "A side plays one game; mend one of them.",
            ),
        ],
    ),
    "a game of the league": (
        (
            "7,7,2026-11-03,19:00,1,Reds,Pinks,\n"
            "P3,9,2026-11-17,19:00,1,winner of 7,loser of P1,play_off\n"
        ),
        [
            (
                at(5, "home"),
                "contradiction",
                "game 7 is a game of the league, and brings no side.",
                "Name a play-off game, or write play_off as the stage of that one.",
            )
        ],
    ),
    "an open side in the league": (
        "7,7,2026-11-17,19:00,1,winner of P1,Pinks,\n",
        [
            (
                at(4, "home"),
                "contradiction",
                "winner of P1 is a side of a play-off game, and this is a game of the league.",
                "Write play_off as its stage.",
            )
        ],
    ),
    "itself": (
        "P3,9,2026-11-17,19:00,1,winner of P3,winner of P1,play_off\n",
        [
            (
                at(4, "home"),
                "contradiction",
                "game P3 would bring itself a side.",
                "Name an earlier game.",
            )
        ],
    ),
    "games that wait for each other": (
        (
            "P3,9,2026-11-17,19:00,1,winner of P4,winner of P1,play_off\n"
            "P4,9,2026-11-17,20:00,1,winner of P3,winner of P2,play_off\n"
        ),
        [
            (
                at(4, "home"),
                "contradiction",
                (
                    "game P4 on row 5 is at 2026-11-17 20:00, and brings a side of this game at "
                    "2026-11-17 19:00."
                ),
                EARLIER,
            )
        ],
    ),
    "a game at the same start": (
        "P3,9,2026-11-10,19:00,3,winner of P1,winner of P2,play_off\n",
        [
            (
                at(4, column),
                "contradiction",
                (
                    f"game {game} on row {row} is at 2026-11-10 19:00, and brings a side of this "
                    "game at 2026-11-10 19:00."
                ),
                EARLIER,
            )
            for column, game, row in (("home", "P1", 2), ("away", "P2", 3))
        ],
    ),
    "a seed beyond the draw": (
        "P3,9,2026-11-17,19:00,1,seed 5,seed 0,play_off\n",
        [
            (
                at(4, "home"),
                "range",
                "there is no seed 5; bracket.csv has 4 seeds.",
                "Seeds count from 1; mend it, or the draw.",
            ),
            (
                at(4, "away"),
                "range",
                "there is no seed 0; bracket.csv has 4 seeds.",
                "Seeds count from 1; mend it, or the draw.",
            ),
        ],
    ),
    "a bracket that was not drawn": (
        "P3,9,2026-11-17,19:00,1,seed 1 of Gold,winner of P1,play_off\n",
        [
            (
                at(4, "home"),
                "unknown_bracket",
                'seed 1 of Gold is of "Gold", which bracket.csv has not drawn.',
                "There is none to choose from.",
            )
        ],
    ),
    "one side twice": (
        (
            "P3,9,2026-11-17,19:00,1,winner of P1,Winner of P1,play_off\n"
            "P4,9,2026-11-17,19:00,2,winner of P2,winner of P1,play_off\n"
        ),
        [
            (
                at(4, "away"),
                "self",
                "winner of P1 cannot play itself.",
                "Name the opponents.",
            ),
            (
                at(5, "away"),
                "duplicate",
                "winner of P1 stands on row 4 too.",
                "A side plays one game; mend one of them.",
            ),
        ],
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_a_side_that_cannot_come_is_refused(tmp_path: Path, case: str) -> None:
    rows, expected = CASES[case]
    assert faults(tmp_path, {"timetable.csv": HEAD + SEMIS + rows}) == expected


def test_a_game_a_minute_later_may_wait_for_one_and_two_may_meet_again(tmp_path: Path) -> None:
    rows = (
        "P3,9,2026-11-10,19:01,1,winner of P1,loser of P1,play_off\n"
        "P4,9,2026-11-10,19:01,2,winner of P2,Reds,play_off\n"
    )
    assert read(tmp_path, {"timetable.csv": HEAD + SEMIS + rows}).remarks == ()


def test_a_side_may_come_from_a_play_off_game_that_only_results_list(tmp_path: Path) -> None:
    rows = "P3,9,2026-11-17,19:00,1,winner of P0,seed 1,play_off\n"
    found = read(
        tmp_path,
        {
            "timetable.csv": HEAD + rows,
            "results.csv": RESULTS + "P0,8,Blues,Greens,2,1,,,play_off,,\n",
        },
    )
    assert sides(found) == {"P3": "Blues v Reds"}


def test_a_game_of_the_bracket_is_of_the_bracket_in_results_too(tmp_path: Path) -> None:
    assert faults(tmp_path, {"results.csv": RESULTS + "P1,8,Reds,Pinks,2,1,,,,,\n"}) == [
        (
            at(2, "game"),
            "contradiction",
            "game P1 is of the bracket here, and not in results.csv.",
            "Write play_off as its stage there.",
        )
    ]


def test_a_draw_may_be_in_any_order_and_of_several_brackets() -> None:
    teams = Known(("Reds", "Blues", "Pinks"), "Use a name of teams.csv.")
    data = b"seed,team,bracket\n2,Reds,Gold\n1,Pinks,\n1,Blues,Gold\n"
    brackets, table = read_brackets(data, teams)
    assert table.faults == []
    assert brackets == {"Gold": (TeamId("Blues"), TeamId("Reds")), "": (TeamId("Pinks"),)}


def test_every_fault_of_a_draw_comes_at_once() -> None:
    teams = Known(("Reds", "Blues", "Pinks"), "Use a name of teams.csv.")
    data = b"seed,team\n1,Reds\n1,Blues\n3,Pinks\n4,Reds\n0,Blues\n6,Bleus\n"
    table = read_brackets(data, teams)[1]
    assert [
        (one.place.row, one.place.column, one.code, one.says, one.cure) for one in table.faults
    ] == [
        (6, "seed", "range", 'seed is "0".', "Give 1 to 256."),
        (3, "seed", "duplicate", '"1" stands on row 2 too.', "Take one out."),
        (5, "team", "duplicate", '"Reds" stands on row 2 too.', "Take one out."),
        (
            7,
            "team",
            "unknown_team",
            '"Bleus" is no team of teams.csv.',
            "Did you mean Blues?",
        ),
        (
            4,
            "seed",
            "missing",
            "seed 3 is given, and seed 2 is not.",
            "Seeds count from 1 without a gap.",
        ),
        (
            7,
            "seed",
            "missing",
            "seed 6 is given, and seed 5 is not.",
            "Seeds count from 1 without a gap.",
        ),
    ]
