"""Divisions play off apart: each has its seeds, its draw, its odds, its games and its page."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from cases.command_line import Run
from cases.meadow import SEASON
from cases.planned_season import PLANNING, RULEBOOK, write_folder
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.make_pages import make_pages

BOOK: Final = """base = "laws-2025-26"
[standings]
criteria = ["points", "difference", "goals"]
last_resort = "lots"
[play_offs]
qualify = "per_pool"
places = 2
unequal_pools = "per_game"
seeded_by = "pool_place_then_record"
same_pool = "not_asked"
third_place = false
"""
TEAMS: Final = """team,pool,division
Ash,North,Open
Birch,North,Open
Cedar,North,Open
Dogwood,South,Mixed
Elm,South,Mixed
Fir,South,Mixed
"""
LEVELS: Final = "division,kind\nMixed,mixed\nOpen,open\n"
HEAD: Final = "game,round,home,away,home_goals,away_goals,stage\n"
OPEN: Final = "1,1,Ash,Birch,2,0,\n2,1,Ash,Cedar,1,0,\n3,1,Birch,Cedar,1,0,\n"
MIXED: Final = "4,1,Dogwood,Elm,3,0,\n5,1,Dogwood,Fir,1,0,\n6,1,Elm,Fir,2,0,\n"
TIMES: Final = "game,round,date,start,field,home,away,stage\n"


def season(folder: Path, results: str, *, said: str = "", timetable: str = "") -> Path:
    """Write a season of two divisions of one pool each, two of which go on."""
    files = {
        "season.toml": SEASON + said,
        "rulebook.toml": BOOK,
        "divisions.csv": LEVELS,
        "teams.csv": TEAMS,
        "results.csv": HEAD + results,
        **({"timetable.csv": TIMES + timetable} if timetable else {}),
    }
    for name, text in files.items():
        (folder / name).write_text(text)
    return folder


def test_each_division_has_its_seeds_and_games_of_its_own_names(
    run: Run, tmp_path: Path
) -> None:
    told = run("bracket", season(tmp_path, OPEN + MIXED)).out.splitlines()
    assert told == [
        "Meadow, Mixed: who goes on",
        "  1. Dogwood, 1st of South",
        "  2. Elm, 2nd of South",
        "  Dogwood before Elm: the better place in its pool.",
        "Not going on:",
        "  Fir, 3rd of South: no place was left.",
        "",
        "The bracket of Mixed, not drawn yet",
        "  P1.1, final: Dogwood against Elm.",
        "",
        "Meadow, Open: who goes on",
        "  1. Ash, 1st of North",
        "  2. Birch, 2nd of North",
        "  Ash before Birch: the better place in its pool.",
        "Not going on:",
        "  Cedar, 3rd of North: no place was left.",
        "",
        "The bracket of Open, not drawn yet",
        "  P2.1, final: Ash against Birch.",
    ]


def test_a_division_that_is_decided_is_drawn_while_the_other_waits(
    run: Run, tmp_path: Path
) -> None:
    level = MIXED.replace("Elm,Fir,2,0", "Elm,Fir,0,0").replace("Fir,1,0", "Fir,3,0")
    folder = season(tmp_path, OPEN + level)
    both = run("bracket", folder, "--draw")
    assert (both.status, "Nothing parts Elm and Fir yet." in both.err) == (1, True)
    assert not (folder / "bracket.csv").exists()
    assert run("bracket", folder, "--draw", "--division", "Open").status == 0
    drawn = "seed,team,bracket\n1,Ash,Open\n2,Birch,Open\n"
    assert (folder / "bracket.csv").read_text() == drawn
    (folder / "results.csv").write_text(HEAD + OPEN + MIXED)
    assert run("bracket", folder, "--draw").status == 0
    rest = "1,Dogwood,Mixed\n2,Elm,Mixed\n"
    assert (folder / "bracket.csv").read_text() == drawn + rest
    again = run("bracket", folder, "--draw")
    assert "bracket.csv holds the draw of Mixed and Open already" in again.err
    assert "A new draw would change nothing." in again.err
    assert (folder / "bracket.csv").read_text() == drawn + rest


def test_one_bracket_across_divisions_is_drawn_where_the_season_says_so(
    run: Run, tmp_path: Path
) -> None:
    folder = season(tmp_path, OPEN + MIXED, said='brackets = "one"\n')
    assert run("bracket", folder, "--draw").status == 0
    seeds = "seed,team\n1,Dogwood\n2,Ash\n3,Elm\n4,Birch\n"
    assert (folder / "bracket.csv").read_text() == seeds
    told = json.loads(run("bracket", folder, "--json").out)
    assert [one["game"] for one in told["games"]] == ["P1", "P2", "P3"]


def test_a_season_with_teams_of_one_division_keeps_a_bracket_without_a_name(
    run: Run, tmp_path: Path
) -> None:
    folder = season(tmp_path, OPEN + MIXED)
    (folder / "teams.csv").write_text(TEAMS.replace("Mixed", "Open"))
    told = json.loads(run("bracket", folder, "--json", "--draw").out)
    assert ("brackets" in told, len(told["seeds"])) == (False, 4)
    assert (folder / "bracket.csv").read_text().startswith("seed,team\n")


def test_a_division_that_is_not_there_is_answered_with_the_nearest(
    run: Run, tmp_path: Path
) -> None:
    refused = run("bracket", season(tmp_path, OPEN + MIXED), "--division", "Mixt")
    assert refused.status == 1
    assert "No bracket is that of Mixt." in refused.err
    assert "Did you mean Mixed?" in refused.err


def test_a_bracket_that_was_drawn_for_all_is_doubted_and_not_written_over(
    run: Run, tmp_path: Path
) -> None:
    folder = season(tmp_path, OPEN + MIXED)
    (folder / "bracket.csv").write_text("seed,team\n1,Dogwood\n2,Ash\n")
    cure = 'write brackets = "one" into season.toml'
    assert cure in run("bracket", folder).err
    refused = run("bracket", folder, "--draw")
    assert (refused.status, "a bracket without a name" in refused.err) == (1, True)
    assert (folder / "bracket.csv").read_text() == "seed,team\n1,Dogwood\n2,Ash\n"


def test_seeds_of_a_timetable_become_the_teams_of_their_own_division(
    run: Run, tmp_path: Path
) -> None:
    """Both finals name seed 1 and seed 2, each of its division; the winner of one is told."""
    finals = (
        "P1,2,2026-10-01,19:00,F,seed 1 of Open,seed 2 of Open,play_off\n"
        "P2,2,2026-10-01,20:00,F,seed 1 of Mixed,seed 2 of Mixed,play_off\n"
    )
    folder = season(tmp_path, OPEN + MIXED, timetable=finals)
    assert run("bracket", folder, "--draw").status == 0
    (folder / "results.csv").write_text(HEAD + OPEN + MIXED + "P1,2,Ash,Birch,0,1,play_off\n")
    told = json.loads(run("bracket", folder, "--json").out)["brackets"]
    assert [(one["bracket"], one["games"][-1]["winner"]) for one in told] == [
        ("Mixed", None),
        ("Open", "Birch"),
    ]
    (folder / "results.csv").write_text(HEAD + OPEN + MIXED + "P2,2,Ash,Birch,0,1,play_off\n")
    assert "by the draw and the games before it, it would be Dogwood v Elm" in (
        run("bracket", folder).err
    )


def test_a_seed_of_no_division_is_doubted_before_the_draw(run: Run, tmp_path: Path) -> None:
    finals = (
        "P1,2,2026-10-01,19:00,F,seed 1,seed 2,play_off\n"
        "P2,2,2026-10-01,20:00,F,seed 1 of Mixd,seed 2 of Mixed,play_off\n"
    )
    told = run("bracket", season(tmp_path, OPEN + MIXED, timetable=finals)).err
    assert "game P1: no division plays for the bracket of seed 1. Write the division" in told
    assert "game P2: no division plays for the bracket of seed 1 of Mixd. Did you mean" in told
    assert "the bracket of seed 2 of Mixed" not in told


def test_games_left_of_one_division_leave_the_odds_of_the_other_sure(
    run: Run, tmp_path: Path
) -> None:
    """Elm and Fir still meet for second place; in Open all is played, and nothing hangs on it."""
    left = "6,1,2026-09-15,19:00,F,Elm,Fir,\n"
    folder = season(tmp_path, OPEN + MIXED.partition("6,")[0], timetable=left)
    told = json.loads(run("odds", folder, "--json", "--seasons", 200).out)["brackets"]
    status = {
        one["bracket"]: {team["team"]: team["status"] for team in one["teams"]} for one in told
    }
    assert status == {
        "Mixed": {"Dogwood": "clinched", "Elm": "alive", "Fir": "alive"},
        "Open": {"Ash": "clinched", "Birch": "clinched", "Cedar": "out"},
    }
    assert [one["left"] for one in told] == [1, 0]
    wins = [sum(team["wins"]["hits"] for team in one["teams"]) for one in told]
    assert wins == [200, 200]
    printed = run("odds", folder, "--seasons", 200).out
    assert "Meadow, Mixed, odds of the play-offs" in printed
    assert "Meadow, Open, odds of the play-offs" in printed


def test_one_picture_holds_one_bracket(run: Run, tmp_path: Path) -> None:
    folder = season(tmp_path, OPEN + MIXED)
    file = tmp_path / "open.svg"
    refused = run("bracket", folder, "--svg", file)
    assert (refused.status, "Name one of them with --division." in refused.err) == (1, True)
    assert run("bracket", folder, "--svg", file, "--division", "Open").status == 0
    assert "<title>The bracket of Open</title>" in file.read_text()
    assert "Dogwood" not in file.read_text()


PRINTED: Final = datetime(2026, 12, 1, 15, tzinfo=UTC)


def test_each_bracket_that_is_drawn_or_could_be_has_a_page_and_a_link(
    run: Run, tmp_path: Path
) -> None:
    folder, out = season(tmp_path, OPEN + MIXED), tmp_path / "out"
    assert run("bracket", folder, "--draw", "--division", "Open").status == 0
    (folder / "results.csv").write_text(HEAD + OPEN + MIXED + "F,2,Birch,Ash,2,1,play_off\n")
    make_pages(FolderRecord(folder), out, printed=PRINTED)
    assert sorted(one.name for one in out.glob("bracket*")) == [
        "bracket-1.html",
        "bracket-2.html",
    ]
    front = (out / "index.html").read_text(encoding="utf-8")
    assert '<a href="bracket-1.html">Bracket Mixed</a>' in front
    mixed = (out / "bracket-1.html").read_text(encoding="utf-8")
    assert "<strong>Not drawn yet: as the table stands.</strong>" in mixed
    assert "<title>The bracket of Mixed</title>" in mixed
    drawn = (out / "bracket-2.html").read_text(encoding="utf-8")
    assert "<strong>As it was drawn.</strong>" in drawn
    row = '<bdi>Birch</bdi> <span class="quiet">v</span> <bdi>Ash</bdi>'
    won = "<small><bdi>P2.1, final</bdi>; <bdi>Birch</bdi> won</small></span>"
    assert f'{row} {won} <span class="tick">2\N{EN DASH}1</span>' in drawn
    assert "Cedar" not in drawn


def test_a_bracket_that_waits_for_lots_has_no_page_yet(tmp_path: Path) -> None:
    level = MIXED.replace("Elm,Fir,2,0", "Elm,Fir,0,0").replace("Fir,1,0", "Fir,3,0")
    out = tmp_path / "out"
    make_pages(FolderRecord(season(tmp_path, OPEN + level)), out, printed=PRINTED)
    assert [one.name for one in out.glob("bracket*")] == ["bracket-2.html"]
    assert "Bracket Mixed" not in (out / "index.html").read_text(encoding="utf-8")


def test_a_season_of_one_bracket_has_one_page_of_it(tmp_path: Path) -> None:
    out = tmp_path / "out"
    said = 'brackets = "one"\n'
    make_pages(FolderRecord(season(tmp_path, OPEN + MIXED, said=said)), out, printed=PRINTED)
    assert [one.name for one in out.glob("bracket*")] == ["bracket.html"]
    front = (out / "index.html").read_text(encoding="utf-8")
    assert '<a href="bracket.html">Bracket</a>' in front


def test_a_planned_timetable_names_the_division_of_each_seed_and_the_draw_fills_it(
    run: Run, tmp_path: Path
) -> None:
    finals = "".join(
        f'[[play_offs]]\ngame = "{game}"\nround = 4\nhome = "seed 1 of {name}"\n'
        f'away = "seed 2 of {name}"\n'
        for game, name in (("P1", "Mixed"), ("P2", "Open"))
    )
    folder = write_folder(
        tmp_path / "planned",
        planning_toml=f"{PLANNING}{finals}",
        teams_csv=TEAMS,
        divisions_csv=LEVELS,
        slots_csv="field,weekday,from,until,minutes\nMeadow 1,monday,18:00,22:00,75\n",
    )
    (folder / "rulebook.toml").write_text(RULEBOOK + BOOK.partition("\n")[2])
    told = run("plan", folder, "--seconds", "5", "--reproducible", "--now", "2026-12-01T10:00")
    assert told.status == 0, told.err
    rows = (folder / "timetable.csv").read_text().splitlines()
    assert sum("seed 1 of Mixed,seed 2 of Mixed" in row for row in rows) == 1
    assert "no division plays for" not in run("bracket", folder).err
    drawn = "1,Dogwood,Mixed\n2,Elm,Mixed\n1,Birch,Open\n2,Ash,Open\n"
    (folder / "bracket.csv").write_text(f"seed,team,bracket\n{drawn}")
    read = read_folder(FolderRecord(folder))
    known = [
        (one.game, one.home, one.away) for one in read.timetable if one.stage == "play_off"
    ]
    assert sorted(known) == [("P1", "Dogwood", "Elm"), ("P2", "Birch", "Ash")]
