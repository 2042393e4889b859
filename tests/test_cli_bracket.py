"""Who goes on, the bracket, its draw and the odds, as a person at the terminal sees them."""

import json
from concurrent.futures import ThreadPoolExecutor, wait
from itertools import combinations
from pathlib import Path
from random import Random
from xml.etree import ElementTree as ET

import pytest

from cases.command_line import Run
from cases.meadow import SEASON
from wholeball.files.folder_record import FolderRecord
from wholeball.files.hold import held_folder
from wholeball.usecases.show_bracket import show_bracket

BOOK = """base = "laws-2025-26"
[standings]
criteria = ["points", "difference", "goals"]
last_resort = "lots"
[play_offs]
qualify = "per_pool"
places = 2
unequal_pools = "per_game"
seeded_by = "pool_place_then_record"
same_pool = "kept_apart_in_first_round"
third_place = true
"""
TEAMS = "team,pool\n" + "".join(
    f"{team},{pool}\n"
    for pool, teams in (
        ("North", ("Ash", "Birch", "Cedar")),
        ("South", ("Dogwood", "Elm", "Fir")),
    )
    for team in teams
)
HEAD = "game,round,home,away,home_goals,away_goals,stage\n"
NORTH = "1,1,Ash,Birch,2,0,\n2,1,Ash,Cedar,1,0,\n3,1,Birch,Cedar,1,0,\n"
SOUTH = "4,1,Dogwood,Elm,3,0,\n5,1,Dogwood,Fir,1,0,\n6,1,Elm,Fir,2,0,\n"
TIMETABLE = "game,round,date,start,field,home,away,stage\n"


def test_the_bracket_says_who_goes_on_and_why(run: Run, tmp_path: Path) -> None:
    told = run("bracket", _season(tmp_path, HEAD + NORTH + SOUTH))
    assert told.status == 0
    assert told.out.splitlines() == [
        "Meadow: who goes on",
        "  1. Dogwood, 1st of South",
        "  2. Ash, 1st of North",
        "  3. Elm, 2nd of South",
        "  4. Birch, 2nd of North",
        "  Dogwood before Ash: goal difference +4 to +3.",
        "  Ash before Elm: the better place in its pool.",
        "  Elm before Birch: goals scored 2 to 1.",
        "Not going on:",
        "  Cedar, 3rd of North: no place was left.",
        "  Fir, 3rd of South: no place was left.",
        "",
        "The bracket, not drawn yet",
        "  P1, semi-final: Dogwood against Birch.",
        "  P2, semi-final: Ash against Elm.",
        "  P3, for third place: loser of P1 against loser of P2.",
        "  P4, final: winner of P1 against winner of P2.",
    ]


def test_the_draw_is_written_once_and_a_later_ruling_changes_nothing_of_it(
    run: Run, tmp_path: Path
) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    first = run("bracket", folder, "--draw")
    assert first.status == 0
    drawn = (folder / "bracket.csv").read_text()
    assert drawn.startswith("seed,team\n1,Dogwood\n2,Ash\n")
    again = run("bracket", folder, "--draw")
    assert again.status == 1
    assert "a draw is made once.\nA new draw would change nothing." in again.err
    (folder / "results.csv").write_text(
        HEAD + NORTH + SOUTH.replace("Elm,Fir,2,0", "Elm,Fir,0,2")
    )
    shown = run("bracket", folder)
    assert "The draw stands. Drawn anew, it would change:" in shown.out
    assert "  Elm, seed " in shown.out
    assert "would be left out." in shown.out
    assert "  Fir would be in, as seed " in shown.out
    refused = run("bracket", folder, "--draw")
    assert "A new draw would change:" in refused.err
    assert (folder / "bracket.csv").read_text() == drawn


def test_a_forfeit_of_a_team_that_is_out_counts_before_anybody_wrote_it_down(
    run: Run, tmp_path: Path
) -> None:
    """Fir forfeited twice and is out; nobody went to the third game, and Elm has won it."""
    out = '[forfeit.removal]\nref = "H 9"\nafter_forfeits = 2\nresults = "rest_forfeited"\n'
    south = "4,1,Dogwood,Elm,3,0,,,\n5,1,Dogwood,Fir,,,,forfeit,away\n"
    south += "7,1,Gorse,Fir,,,,forfeit,away\n8,1,Dogwood,Gorse,4,0,,,\n9,1,Elm,Gorse,0,0,,,\n"
    left = TIMETABLE + "6,1,2026-09-15,19:00,F,Elm,Fir,\n"
    head = HEAD.strip() + ",how,by\n"
    north = NORTH.replace(",\n", ",,,\n")
    folder = _season(tmp_path, head + north + south, timetable=left)
    (folder / "rulebook.toml").write_text(BOOK + out)
    (folder / "teams.csv").write_text(TEAMS + "Gorse,South\n")
    shown = run("bracket", folder, "--draw")
    said = (
        "timetable.csv: game 6, Elm v Fir, has no result; Fir, out of the league by H 9, "
        "forfeits it. Who goes on is told by that. Enter the forfeit, so that the standings "
        "count it."
    )
    assert said in shown.err
    assert "4. Elm, 2nd of South" in shown.out
    drawn = {line.partition(",")[2] for line in _rows(folder)}
    told = json.loads(run("odds", folder, "--json", "--seasons", 100).out)
    sure = {one["team"] for one in told["teams"] if one["status"] == "clinched"}
    assert drawn == sure == {"Ash", "Birch", "Dogwood", "Elm"}
    assert said in run("check", folder, "--on", "2026-09-16").out
    assert said not in run("check", folder, "--on", "2026-09-15").out


def test_a_draw_of_brackets_with_names_is_not_written_over(run: Run, tmp_path: Path) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    drawn = "seed,team,bracket\n1,Ash,Gold\n2,Elm,Gold\n1,Fir,Silver\n2,Cedar,Silver\n"
    (folder / "bracket.csv").write_text(drawn)
    refused = run("bracket", folder, "--draw")
    assert refused.status == 1
    assert "bracket.csv holds the draw of Gold and Silver already" in refused.err
    assert (folder / "bracket.csv").read_text() == drawn


def test_a_draw_waits_for_a_ruling_that_is_being_written(run: Run, tmp_path: Path) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    with ThreadPoolExecutor(1) as pool:
        with held_folder(folder):
            drawing = pool.submit(show_bracket, FolderRecord(folder), draw=True)
            wait([drawing], timeout=0.3)
            turned = NORTH.replace("Birch,Cedar,1,0", "Birch,Cedar,0,1")
            (folder / "results.csv").write_text(HEAD + turned + SOUTH)
        drawn = drawing.result().brackets[0].drawn
    assert ("Cedar" in drawn, "Birch" in drawn) == (True, False)
    assert "would change nothing" in run("bracket", folder, "--draw").err


def test_level_teams_are_parted_before_the_draw(run: Run, tmp_path: Path) -> None:
    level = NORTH.replace("Birch,Cedar,1,0", "Birch,Cedar,0,0").replace(
        "Ash,Birch,2", "Ash,Birch,1"
    )
    folder = _season(tmp_path, HEAD + level + SOUTH)
    refused = run("bracket", folder, "--draw")
    assert refused.status == 1
    assert "Nothing parts Birch and Cedar yet." in refused.err
    assert not (folder / "bracket.csv").exists()
    lots = '[[lots]]\nlabel = "north"\norder = ["Cedar", "Birch"]\n'
    (folder / "season.toml").write_text(SEASON + lots)
    assert run("bracket", folder, "--draw").status == 0
    assert "Cedar" in (folder / "bracket.csv").read_text()


def test_results_of_play_offs_fill_the_bracket(run: Run, tmp_path: Path) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    run("bracket", folder, "--draw")
    teams = [line.partition(",")[2] for line in _rows(folder)]
    games = f"7,2,{teams[0]},{teams[3]},1,0,play_off\n8,2,{teams[1]},{teams[2]},0,2,play_off\n"
    (folder / "results.csv").write_text(HEAD + NORTH + SOUTH + games)
    told = json.loads(run("bracket", folder, "--json").out)
    final = told["games"][-1]
    assert (final["home"], final["away"], final["state"]) == (teams[0], teams[2], "open")
    assert told["games"][-2]["for_third"] is True


def test_a_game_played_the_other_way_round_is_told_in_the_order_of_the_bracket(
    run: Run, tmp_path: Path
) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    run("bracket", folder, "--draw")
    teams = [line.partition(",")[2] for line in _rows(folder)]
    head = HEAD.strip() + ",home_kicks,away_kicks,how,by\n"
    league = (NORTH + SOUTH).replace(",\n", ",,,,,\n")
    first = f"7,2,{teams[3]},{teams[0]},1,1,play_off,4,2,,\n"
    second = f"8,2,{teams[2]},{teams[1]},,,play_off,,,forfeit,home\n"
    (folder / "results.csv").write_text(head + league + first + second)
    told = json.loads(run("bracket", folder, "--json").out)
    keys = ("home", "away", "winner", "how", "score", "kicks")
    assert [tuple(one[key] for key in keys) for one in told["games"][:2]] == [
        (teams[0], teams[3], teams[3], "played", [1, 1], [2, 4]),
        (teams[1], teams[2], teams[1], "forfeit", None, None),
    ]


def test_a_game_that_the_drawn_bracket_does_not_have_is_doubted(
    run: Run, tmp_path: Path
) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    other = "7,2,Ash,Dogwood,1,0,play_off\n"
    (folder / "results.csv").write_text(HEAD + NORTH + SOUTH + other)
    said = "game 7, Ash v Dogwood, is no game of the bracket as drawn."
    assert said not in run("bracket", folder).err
    assert run("bracket", folder, "--draw").status == 0
    assert said in run("bracket", folder).err


def test_the_picture_has_a_title_and_says_every_game_in_words(run: Run, tmp_path: Path) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    file = tmp_path / "bracket.svg"
    assert run("bracket", folder, "--svg", file).status == 0
    picture = ET.fromstring(file.read_text())  # noqa: S314 - we wrote it
    names = {"s": "http://www.w3.org/2000/svg"}
    told = picture.findtext("s:desc", namespaces=names) or ""
    assert picture.findtext("s:title", namespaces=names) == "The bracket"
    assert [f"P{number}, " in told for number in range(1, 5)] == [True] * 4
    texts = [one.text for one in picture.iter("{http://www.w3.org/2000/svg}text")]
    assert [team in texts for team in ("Ash", "Birch", "Dogwood", "Elm")] == [True] * 4


def test_odds_are_sure_only_where_they_are_proven(run: Run, tmp_path: Path) -> None:
    """Cedar has no point and no game left, and two of three go on: it is out on points alone."""
    left = TIMETABLE + "6,1,2026-09-15,19:00,F,Elm,Fir,\n"
    folder = _season(tmp_path, HEAD + NORTH + SOUTH.partition("6,")[0], timetable=left)
    told = json.loads(run("odds", folder, "--json", "--seasons", 500, "--seed", 3).out)
    by_team = {one["team"]: one for one in told["teams"]}
    assert (told["seed"], told["seasons"], told["left"]) == (3, 500, 1)
    assert {team: one["status"] for team, one in by_team.items()} == {
        "Ash": "clinched",
        "Birch": "clinched",
        "Cedar": "out",
        "Dogwood": "clinched",
        "Elm": "alive",
        "Fir": "alive",
    }
    assert by_team["Ash"]["goes_on"]["says"] == "100 %"
    assert by_team["Cedar"]["goes_on"]["says"] == "0 %"
    assert "\N{PLUS-MINUS SIGN}" in by_team["Elm"]["goes_on"]["says"]
    assert by_team["Elm"]["goes_on"]["hits"] + by_team["Fir"]["goes_on"]["hits"] == 500


def test_level_teams_that_cannot_go_on_are_out_for_certain_at_the_end(
    run: Run, tmp_path: Path
) -> None:
    """Fir and Gorse are level; which one's games are dropped is open, that both are out is not."""
    level = "".join(
        f"{number},1,{home},Gorse,{goals},0,\n"
        for number, home, goals in ((7, "Dogwood", 2), (8, "Elm", 1), (9, "Fir", 0))
    )
    south = SOUTH.replace("Dogwood,Fir,1,0", "Dogwood,Fir,2,0").replace(
        "Elm,Fir,2,0", "Elm,Fir,1,0"
    )
    folder = _season(tmp_path, HEAD + NORTH + south + level)
    (folder / "teams.csv").write_text(TEAMS + "Gorse,South\n")
    (folder / "rulebook.toml").write_text(BOOK.replace("per_game", "drop_games_against_last"))
    assert "Nothing parts Fir and Gorse yet." in run("bracket", folder).out
    told = json.loads(run("odds", folder, "--json", "--seasons", 100).out)
    status = {one["team"]: one["status"] for one in told["teams"]}
    assert (status["Elm"], status["Fir"], status["Gorse"]) == ("clinched", "out", "out")


def test_no_simulated_season_contradicts_what_is_proven(run: Run, tmp_path: Path) -> None:
    proven: list[tuple[str, float]] = []
    for case in range(8):
        folder = tmp_path / str(case)
        folder.mkdir()
        told = json.loads(
            run("odds", _half_played(folder, Random(case)), "--json", "--seasons", 2_000).out
        )
        shares = [(one["status"], one["goes_on"]["chance"]) for one in told["teams"]]
        assert sum(chance for _, chance in shares) == pytest.approx(4)
        proven += [one for one in shares if one[0] in ("clinched", "out")]
    assert set(proven) == {("clinched", 1.0), ("out", 0.0)}


def _half_played(folder: Path, chance: Random) -> Path:
    pairs = [*combinations(("Ash", "Birch", "Cedar"), 2)] * 2
    pairs += [*combinations(("Dogwood", "Elm", "Fir"), 2)] * 2
    games = [(f"g{number}", *pair) for number, pair in enumerate(pairs)]
    chance.shuffle(games)
    played = "".join(
        f"{game},1,{home},{away},{chance.randint(0, 3)},{chance.randint(0, 3)},\n"
        for game, home, away in games[:8]
    )
    left = "".join(
        f"{game},2,2026-09-{22 + number},19:00,F,{home},{away},\n"
        for number, (game, home, away) in enumerate(games[8:])
    )
    return _season(folder, HEAD + played, timetable=TIMETABLE + left)


def test_the_same_seed_prints_the_same_odds(run: Run, tmp_path: Path) -> None:
    left = TIMETABLE + "6,1,2026-09-15,19:00,F,Elm,Fir,\n"
    folder = _season(tmp_path, HEAD + NORTH + SOUTH.partition("6,")[0], timetable=left)
    assert run("odds", folder).out == run("odds", folder).out
    assert "10,000 seasons simulated, seed 1; 1 game left" in run("odds", folder).out


def test_a_season_without_teams_has_no_odds_yet(run: Run, tmp_path: Path) -> None:
    folder = _season(tmp_path, HEAD)
    (folder / "teams.csv").write_text("team,pool\n")
    assert run("odds", folder).out == "No odds: there is no team yet.\n"
    assert json.loads(run("odds", folder, "--json").out)["no_odds"] == "no_teams"
    assert "who goes on" in run("bracket", folder).out


def test_the_drawn_bracket_has_odds_where_the_season_has_none(run: Run, tmp_path: Path) -> None:
    """Pools of three and four: games will be dropped, and the draw stands."""
    left = TIMETABLE + "7,1,2026-09-15,19:00,F,Elm,Gorse,\n"
    folder = _with_gorse(tmp_path, "", timetable=left)
    (folder / "bracket.csv").write_text("seed,team\n1,Ash\n2,Dogwood\n")
    told = run("odds", folder).out
    assert told.startswith("No odds: the games against the last of the larger pools")
    assert "The drawn bracket is won by:\n  Dogwood: " in told


def _with_gorse(tmp_path: Path, results: str, *, timetable: str = "") -> Path:
    """Write pools of three and four of which places go to the best of all."""
    folder = _season(tmp_path, HEAD + NORTH + SOUTH + results, timetable=timetable)
    (folder / "teams.csv").write_text(TEAMS + "Gorse,South\n")
    dropping = BOOK.replace("per_pool", "overall").replace(
        "per_game", "drop_games_against_last"
    )
    (folder / "rulebook.toml").write_text(dropping.replace("third_place = true\n", ""))
    return folder


def test_once_no_game_is_left_the_odds_are_those_of_the_games_that_were_not_dropped(
    run: Run, tmp_path: Path
) -> None:
    """Gorse lost 0-9 thrice: those goals are dropped, and Dogwood, Elm and Fir keep theirs."""
    lost = "".join(
        f"{number},1,{home},Gorse,9,0,\n"
        for number, home in ((7, "Dogwood"), (8, "Elm"), (9, "Fir"))
    )
    folder = _with_gorse(tmp_path, lost)
    told = json.loads(run("odds", folder, "--json", "--seasons", 100).out)
    drawn = json.loads(run("bracket", folder, "--json").out)
    on = {one["team"] for one in drawn["seeds"]}
    assert on
    assert {one["team"]: one["goes_on"]["chance"] for one in told["teams"]} == {
        one["team"]: float(one["team"] in on) for one in told["teams"]
    }
    assert all(one["status"] in ("clinched", "out") for one in told["teams"])


def test_where_nothing_parts_the_last_of_a_larger_pool_the_odds_say_so(
    run: Run, tmp_path: Path
) -> None:
    folder = _with_gorse(tmp_path, "")
    text = (folder / "results.csv").read_text()
    level = "7,1,Dogwood,Gorse,1,0,\n8,1,Elm,Gorse,2,0,\n9,1,Fir,Gorse,0,0,\n"
    (folder / "results.csv").write_text(text + level)
    assert "nothing parts yet who is last" in run("odds", folder).out


def test_a_season_without_play_offs_has_neither_bracket_nor_odds(
    run: Run, tmp_path: Path
) -> None:
    folder = _season(tmp_path, HEAD + NORTH + SOUTH)
    none = 'base = "laws-2025-26"\n[play_offs]\nqualify = "none"\nplaces = 0\n'
    (folder / "rulebook.toml").write_text(none)
    assert run("bracket", folder).out == "The rulebook has no play-offs.\n"
    assert run("odds", folder).out == "The rulebook has no play-offs.\n"
    assert "no play-offs to draw" in run("bracket", folder, "--draw").err


def _season(folder: Path, results: str, *, timetable: str = "") -> Path:
    season = folder / "season"
    season.mkdir()
    files = {
        "season.toml": SEASON,
        "rulebook.toml": BOOK,
        "teams.csv": TEAMS,
        "results.csv": results,
    }
    if timetable:
        files["timetable.csv"] = timetable
    for name, text in files.items():
        (season / name).write_text(text)
    return season


def _rows(folder: Path) -> list[str]:
    return (folder / "bracket.csv").read_text().splitlines()[1:]
