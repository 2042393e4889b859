"""Standings and pages are shown, written and refused as a person at the terminal sees them."""

import json
import shutil
from pathlib import Path
from typing import Any

import pytest

from cases.command_line import Run, Told, written

ROOT = Path(__file__).resolve().parents[1]
LEAGUE = ROOT / "examples" / "lantern-hill"
HOUSE = """
[forfeit]
score = { winners = 2, losers = 0 }
in_difference = false
[forfeit.removal]
after_forfeits = 2
results = "kept"
[standings]
points = { win = 3, draw = 1, loss = 0, forfeit_loss = -1 }
criteria = [
  "points",
  { among_level = ["h2h_points"], again = false },
  { conduct = { yellow = -1, second_yellow = -3, straight_red = -4, yellow_and_straight_red = -5 } },
]
last_resort = "lots"
"""
GAMES = """game,round,home,away,home_goals,away_goals,how,by
1,1,Ash,Birch,1,1,,
2,1,Cedar,Ash,,,forfeit,home
3,1,Birch,Cedar,,,forfeit,away
"""


def test_standings_come_with_the_reason_between_level_neighbours(run: Run) -> None:
    told = run("standings", LEAGUE)
    assert told.status == 0
    assert "Level on 10 points. Why is Nutmeg Theory above Late Submissions?" in told.out
    assert "Nothing parts them. They share the place until lots are drawn." in told.out


def test_standings_as_json_hold_every_round_up_to_the_one_asked_for(run: Run) -> None:
    told = json.loads(run("standings", LEAGUE, "--json", "--round", 2).out)
    assert [[table["round"] for table in pool["rounds"]] for pool in told["pools"]] == [
        [1, 2]
    ] * 2
    assert all(
        row["won"] + row["drawn"] + row["lost"] == row["played"] == 2
        for pool in told["pools"]
        for row in pool["rounds"][-1]["rows"]
    )


def test_a_round_after_the_last_with_a_result_is_refused(run: Run) -> None:
    assert run("standings", LEAGUE, "--round", 5).status == 0
    assert run("standings", LEAGUE, "--round", 6) == Told(
        1,
        "",
        "Round 6 has no result; the last round that has one is 5. Give 1 to 5, or leave the "
        "round out to see the newest standings.\n",
    )


def test_a_file_named_for_the_season_folder_gets_its_folder(run: Run, tmp_path: Path) -> None:
    file, other = LEAGUE / "season.toml", written(tmp_path, "")
    assert run("standings", file) == Told(
        1, "", f"{file} is a file; a season folder is wanted. Name its folder: {LEAGUE}\n"
    )
    assert run("pages", other, tmp_path / "out") == Told(
        1,
        "",
        f"{other} is a file; a season folder is wanted. Name the folder that holds the "
        "season's files.\n",
    )


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Make a season in which two teams are parted by lots and one is out."""
    folder = tmp_path / "season"
    folder.mkdir()
    written(folder, HOUSE).rename(folder / "rulebook.toml")
    (folder / "teams.csv").write_text("team,pool\nAsh,A\nBirch,A\nCedar,A\n")
    (folder / "results.csv").write_text(GAMES)
    (folder / "season.toml").write_text(
        'schema = 1\nname = "Small"\ntimezone = "UTC"\nfirst_day = 2027-01-01\n'
        'last_day = 2027-03-01\n[[lots]]\nlabel = "draw 1"\norder = ["Birch", "Ash"]\n'
    )
    return folder


def test_standings_as_json_give_mini_tables_draws_absences_and_who_is_out(
    run: Run, small: Path
) -> None:
    (table,) = json.loads(run("standings", small, "--json").out)["pools"][0]["rounds"]
    plain: dict[str, Any] = {"reason": None, "mini_table": None, "table": [], "draw": None}
    level = plain | {"above": "4", "below": "4", "verdict": "level"}
    assert table["between"][0]["asked"] == [
        level | {"question": "Points"},
        level
        | {
            "question": "Points in the games among them",
            "above": "1",
            "below": "1",
            "mini_table": 1,
            "table": [{"team": "Ash", "figure": "1"}, {"team": "Birch", "figure": "1"}],
        },
        plain
        | {
            "question": "Conduct points from yellow and red",
            "above": "not known",
            "below": "not known",
            "verdict": "absent",
            "reason": "not_recorded",
        },
        plain
        | {
            "question": "Lots drawn",
            "above": "1",
            "below": "2",
            "verdict": "parts",
            "draw": "draw 1",
        },
    ]
    assert table["absences"] == [
        {
            "question": "Conduct points from yellow and red",
            "mini_table": None,
            "teams": ["Ash", "Birch"],
            "reason": "not_recorded",
            "says": "Conduct points from yellow and red: not asked of Ash and Birch, since it is "
            "not recorded for all of them.",
        }
    ]
    assert table["out"] == [
        {"team": "Cedar", "forfeits": 2, "round": 1, "games": "kept", "ref": "forfeit.removal"}
    ]


def test_a_forfeit_shows_its_score_and_what_it_costs_where_its_goals_do_not_count(
    run: Run, small: Path, tmp_path: Path
) -> None:
    told = run("standings", small, "--html", tmp_path / "out")
    line = (
        "  Game 2, Cedar v Ash: forfeited by Cedar; won by Ash 0\u20132; its goals do not count; "
        "1 point off Cedar for the forfeit."
    )
    assert line in told.out.splitlines()
    page = (tmp_path / "out" / "standings-1-round-1.html").read_text()
    assert '<span class="less">2 taken off for forfeits, see below</span>' in page
    assert "<small>forfeit, its goals do not count, see below</small>" in page
    assert '<span class="tick">0\u20132</span>' in page


def test_standings_are_written_as_pages_and_pictures(run: Run, tmp_path: Path) -> None:
    told = run(
        "standings", LEAGUE, "--html", tmp_path / "pages", "--svg", tmp_path / "pictures"
    )
    files = [Path(line) for line in told.out.splitlines() if line.startswith(str(tmp_path))]
    assert all(path.is_file() for path in files)
    assert sorted(path.suffix for path in files) == [".html"] * 10 + [".svg"] * 2


def test_all_faults_of_a_folder_are_told_together_and_no_page_is_written(
    run: Run, tmp_path: Path
) -> None:
    folder = shutil.copytree(LEAGUE, tmp_path / "league")
    (folder / "teams.csv").write_text("team,pol\nA,1\n")
    (folder / "season.toml").write_text('schema = 1\nname = "x"\n')
    told = run("pages", folder, tmp_path / "out")
    assert (told.status, told.out) == (1, "")
    assert "season.toml: timezone is missing." in told.err
    assert "teams.csv row 1: column 'pol' is not known. Did you mean pool?" in told.err
    assert told.err.splitlines()[-2:] == [
        "Mend what is listed and try again.",
        "Nothing was written.",
    ]
    assert not (tmp_path / "out").exists()
    only_read = run("standings", folder)
    assert only_read.err.splitlines()[-1] == "Mend what is listed and try again."
    assert run("standings", folder, "--html", tmp_path / "out").err == told.err


def test_the_front_page_counts_one_article_that_differs_in_the_singular(
    run: Run, small: Path, tmp_path: Path
) -> None:
    written(small, "[goalkeeper.hold]\nseconds = 12\n").rename(small / "rulebook.toml")
    season = small / "season.toml"
    season.write_text(season.read_text().split("[[lots]]")[0])
    assert run("pages", small, tmp_path / "out").status == 0
    index = (tmp_path / "out" / "index.html").read_text()
    assert "Every article in plain words; 1 differs from the Laws of the Game." in index


def test_pages_of_a_pool_that_is_gone_are_taken_out(
    run: Run, small: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert run("pages", small, out).status == 0
    assert (out / "standings-1-round-1.html").is_file()
    (small / "results.csv").write_text(GAMES.split("\n", maxsplit=1)[0])
    assert run("pages", small, out).status == 0
    assert not (out / "standings-1-round-1.html").exists()


def test_a_game_awarded_by_a_ruling_shows_both_scores_in_words_and_as_json(
    run: Run, small: Path
) -> None:
    (small / "rulings.csv").write_text(
        "ruling,date,game,ruled,by,home_goals,away_goals,ref,why\n"
        "4,2027-02-01,1,awarded,,0,3,H 3.5,An ineligible player.\n"
    )
    line = (
        "Game 1, Ash v Birch: played 1\N{EN DASH}1; awarded 0\N{EN DASH}3 by ruling 4 (H 3.5)."
    )
    assert f"  {line} An ineligible player.\n" in run("standings", small).out
    (table,) = json.loads(run("standings", small, "--json").out)["pools"][0]["rounds"]
    assert [one for one in table["not_as_played"] if one["game"] == "1"] == [
        {
            "says": line,
            "why": "An ineligible player.",
            "game": "1",
            "played": [1, 1],
            "counts": [0, 3],
            "ruling": {
                "number": 4,
                "date": "2027-02-01",
                "ruled": "awarded",
                "ref": "H 3.5",
                "why": "An ineligible player.",
            },
        }
    ]
    pages = run("pages", small, small / "pages")
    assert pages.status == 0
    told = "".join(page.read_text() for page in (small / "pages").rglob("*.html"))
    assert "An ineligible player." in told
