"""A season of four teams, typed in by hand from the first file on, with every command there is."""

import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, Final

import pytest
import typer

from cases.command_line import Run, Told
from wholeball.cli.main import app

BLOCKS: Final = """block,division,weekday,from,until,places
Tuesday,Open,tuesday,18:30,22:00,4
"""
SIGN_UPS: Final = """team,block,at,captain,players,colours,second_colours
Paper Moths,Tuesday,2027-01-04 09:00,Noor Zephirou,8,white,grey
Loose Gravel,Tuesday,2027-01-04 09:10,Ondine Havenko,8,red,black
Brass Otters,Tuesday,2027-01-04 09:20,Tadeo Merrowby,8,gold,white
Wet Socks,Tuesday,2027-01-04 09:30,Bodil Lindqvar,8,navy,green
"""
TEAMS: Final = ("Paper Moths", "Loose Gravel", "Brass Otters", "Wet Socks")
TIMETABLE: Final = """game,round,date,start,field,home,away,stage
G1,1,2027-01-19,19:00,North,Paper Moths,Wet Socks,
G2,1,2027-01-19,20:20,North,Loose Gravel,Brass Otters,
G3,2,2027-01-26,19:00,North,Wet Socks,Brass Otters,
G4,2,2027-01-26,20:20,North,Paper Moths,Loose Gravel,
G5,3,2027-02-02,19:00,North,Loose Gravel,Wet Socks,
G6,3,2027-02-02,20:20,North,Brass Otters,Paper Moths,
F1,4,2027-02-09,19:00,North,seed 1,seed 2,play_off
"""
RESULTS: Final = """game,round,date,home,away,home_goals,away_goals,home_rating,away_rating
G2,1,2027-01-19,Loose Gravel,Brass Otters,0,0,4,4
G3,2,2027-01-26,Wet Socks,Brass Otters,1,0,5,3
G4,2,2027-01-26,Paper Moths,Loose Gravel,1,1,4,5
"""
SLOTS: Final = "field,weekday,from,until,minutes\nNorth,tuesday,19:00,21:40,80\n"
PLANNING: Final = """schema = 1

[[play_offs]]
game = "F1"
round = 4
home = "seed 1"
away = "seed 2"
"""
LAST_ROW: Final = "G5,3,2027-02-02,Loose Gravel,Wet Socks,2,0,4,4\n"
FIRST_CARD: Final = """schema = 1
periods = ["2-0", "1-1"]
home_players = [1, 2, 3, 4, 5, 6]
away_players = [1, 2, 3, 4, 5, 7]
signed = ["home_captain", "away_captain", "official"]

[[red]]
side = "away"
number = 7
reason = "struck an opponent"

[[ratings]]
side = "home"
value = 5
by = "opponent"
"""
UNSIGNED_CARD: Final = """schema = 1
periods = ["0-1", "0-1"]
signed = ["home_captain", "official"]

[[refused]]
by = "away_captain"
reason = "the clock ran too long"
"""
FINAL_CARD: Final = """schema = 1
periods = ["1-0", "0-1"]
overtime = ["0-0"]
signed = ["home_captain", "away_captain", "official"]

[kicks]
first = "home"
home = "oo"
away = "xx"
"""


@pytest.fixture
def typed() -> list[tuple[str, ...]]:
    return []


@pytest.fixture
def say(
    run: Run, typed: list[tuple[str, ...]], monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Told]:
    """Type a command that should work, and note which it was."""
    monkeypatch.setenv("WHOLEBALL_ID_KEY", "a key that this test alone has")

    def said(*words: object) -> Told:
        told = run(*words)
        assert told.status == 0, told.err
        typed.append(tuple(str(one) for one in words[:2]))
        return told

    return said


def test_a_season_typed_in_by_hand_goes_through_every_command(
    say: Callable[..., Told], typed: list[tuple[str, ...]], tmp_path: Path
) -> None:
    folder = tmp_path / "tuesday"
    _sets_up(say, folder)
    _plays_the_first_night(say, folder)
    _plays_the_league(say, folder)
    _plays_the_final(say, folder)
    _publishes(say, folder, tmp_path)
    lacking = [one for one in _commands_about_a_folder() if one not in set(_names(typed))]
    assert lacking == [], "type these commands in this test too"


def _sets_up(say: Callable[..., Told], folder: Path) -> None:
    say("new", folder, "--preset", "eight", "--first-day", "2027-01-19")
    book = (folder / "rulebook.toml").read_text(encoding="utf-8")
    (folder / "rulebook.toml").write_text(
        book.replace("places = 8", "places = 2").replace("each = 4", "each = 3"),
        encoding="utf-8",
    )
    say("rulebook", "check", folder / "rulebook.toml")
    _write(folder, "divisions.csv", "division\nOpen\n")
    _write(folder, "blocks.csv", BLOCKS)
    _write(folder, "sign_ups.csv", SIGN_UPS)
    told = say("pools", folder, "--size", 4, "--write").out
    assert "Tuesday (Open, Tuesday 18:30 to 22:00): 4 of 4 places taken." in told
    for index, team in enumerate(TEAMS):
        _write(folder.parent, "list.csv", _list(index))
        added = say(
            "roster",
            "add",
            folder,
            folder.parent / "list.csv",
            "--team",
            team,
            "--on",
            "2027-01-11",
        )
        assert f"8 players added to {team}, which has 8." in added.out
    _write(folder, "timetable.csv", TIMETABLE)
    _write(folder, "sites.csv", "site,address,gate\nMeadow,1 Meadow Road,North gate\n")
    _write(folder, "fields.csv", "field,site\nNorth,Meadow\n")
    _write(folder, "officials.csv", "official\nKim\nSam\n")
    _write(folder, "crews.csv", "game,role,official\nG1,lead,Kim\nG1,trail,Sam\n")
    assert say("check", folder, "--on", "2027-01-12").out == "Nothing is wrong.\n"
    _plans(say, folder)


def _plans(say: Callable[..., Told], folder: Path) -> None:
    """Ask for a plan of the league beside the timetable typed in, which stays."""
    _write(folder, "slots.csv", SLOTS)
    _write(folder, "planning.toml", PLANNING)
    now = ("--now", "2027-01-12T09:00")
    told = json.loads(
        say("plan", folder, "--dry-run", "--reproducible", "--seconds", 5, *now, "--json").out
    )
    assert (told["ok"], told["proof"], len(told["games"])) == (True, "optimal", 7)
    say("plan", folder, "--what-if", "teams", *now)
    lost = ("--lost-night", "2027-02-02", "--dry-run", "--reproducible", "--seconds", 5)
    mended = json.loads(say("repair", folder, *lost, *now, "--json").out)
    assert {one["game"] for one in mended["moved"]} == {"G5", "G6", "F1"}
    explained = say("explain", folder, *now).out
    assert explained.startswith("7 games, 24 places to play them in.")
    assert "The timetable in the folder costs 0." in explained
    assert (folder / "timetable.csv").read_text() == TIMETABLE


def _list(index: int) -> str:
    names = ("Ana", "Bo", "Cy", "Di", "Ed", "Fi", "Gu", "Hal")
    rows = (
        f"0{index}4711{number},{name} Hand{index},{number},{'yes' if number == 1 else ''}"
        for number, name in enumerate(names, start=1)
    )
    return "student_id,name,number,captain\n" + "\n".join(rows) + "\n"


def _plays_the_first_night(say: Callable[..., Told], folder: Path) -> None:
    for sheet in ("packet", "scorecards"):
        path = folder.parent / f"{sheet}.pdf"
        say("sheets", sheet, folder, "--night", "2027-01-19", "--out", path)
        assert path.read_bytes().startswith(b"%PDF")
    say("enter", folder, "G1", "--template")
    _write(folder, "cards/G1.toml", FIRST_CARD)
    assert "3\N{EN DASH}1" in say("enter", folder, "G1", "--file", "--by", "Kim").out
    say("certify", folder, "G1", "--by", "Sam")
    say("reopen", folder, "G1", "--by", "Sam", "--reason", "A goal was asked about.")
    say("certify", folder, "G1", "--by", "Sam")
    told = json.loads(say("game", folder, "G1", "--json").out)
    assert (told["score"], told["ending"]["how"], told["winner"]) == (
        [3, 1],
        "full_time",
        "home",
    )
    _write(folder, "results.csv", RESULTS)
    found = json.loads(say("suspensions", folder, "--on", "2027-01-27", "--json").out)
    assert [
        (one["names"][0]["name"], one["cause"], [each["game"] for each in one["served"]])
        for one in found["suspensions"]
    ] == [("Gu Hand3", "red", ["G3"])]
    path = folder.parent / "suspensions.pdf"
    say("sheets", "suspensions", folder, "--on", "2027-01-27", "--out", path)


def _plays_the_league(say: Callable[..., Told], folder: Path) -> None:
    odds = json.loads(say("odds", folder, "--seasons", 500, "--json").out)
    by_team = {one["team"]: one["status"] for one in odds["teams"]}
    # Beaten, they have 4 points as Brass Otters then have, and one of two others has more.
    assert by_team["Paper Moths"] == "depends_on_ties"
    _write(folder, "results.csv", RESULTS + LAST_ROW)
    _write(folder, "cards/G6.toml", UNSIGNED_CARD)
    say("enter", folder, "G6", "--file", "--by", "Kim")
    words = ("--by", "Sam", "--question", 1, "--answer", "as_it_is", "--reason", "He was told.")
    say("answer", folder, "G6", *words)
    say("certify", folder, "G6", "--by", "Sam")
    why = ("--ref", "H 3.5", "--why", "A player of the other side was not on its roster.")
    say("award", folder, "G3", "--to", "away", *why, "--on", "2027-01-28")
    assert _table(say, folder) == [
        ("Paper Moths", 3, 7),
        ("Loose Gravel", 3, 5),
        ("Brass Otters", 3, 4),
        ("Wet Socks", 3, 0),
    ]
    rows = json.loads(say("results", folder, "--json").out)["results"]
    assert [(one["game"], one["how"]) for one in rows if one["how"] != "played"] == [
        ("G3", "forfeit")
    ]
    ratings = json.loads(say("ratings", folder, "--json").out)["teams"]
    assert {one["team"]: one["exact"] for one in ratings} == {
        "Paper Moths": "9/2",
        "Loose Gravel": "13/3",
        "Brass Otters": "7/2",
        "Wet Socks": "9/2",
    }


def _table(say: Callable[..., Told], folder: Path) -> list[tuple[str, int, int]]:
    pools = json.loads(say("standings", folder, "--json").out)["pools"]
    rows = pools[0]["rounds"][-1]["rows"]
    return [(row["team"], row["played"], row["points"]) for row in rows]


def _plays_the_final(say: Callable[..., Told], folder: Path) -> None:
    say("bracket", folder, "--draw")
    assert (folder / "bracket.csv").read_text() == "seed,team\n1,Paper Moths\n2,Loose Gravel\n"
    _write(folder, "cards/F1.toml", FINAL_CARD)
    say("enter", folder, "F1", "--file", "--by", "Kim")
    say("certify", folder, "F1", "--by", "Sam")
    final = json.loads(say("bracket", folder, "--json").out)["games"][-1]
    assert (final["winner"], final["state"]) == ("Paper Moths", "decided")


def _publishes(say: Callable[..., Told], folder: Path, tmp_path: Path) -> None:
    say("pages", folder, tmp_path / "pages")
    made = {one.name for one in (tmp_path / "pages").iterdir()}
    assert {"index.html", "game-F1.html", "standings-1-round-3.html"} <= made
    report = json.loads(say("report", folder, "--json").out)
    assert (report["total"]["played"], report["total"]["forfeits"]) == (7, 1)
    lots = tmp_path / "lots"
    say("draw", "commit", lots, "Wet Socks", "Brass Otters", "--label", "who wears bibs")
    say("draw", "reveal", lots, "--public", "4 and 11")
    say("draw", "check", lots / "draw.json")
    left = say("check", folder, "--on", "2027-02-10").out
    assert "G3" not in left
    assert "Nobody" not in left


def _write(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")


def _commands_about_a_folder() -> Iterator[str]:
    """Yield each command that is given a folder, as it is typed."""
    group: Any = typer.main.get_command(app)
    for name, command in group.commands.items():
        inner = getattr(command, "commands", {})
        for more, one in inner.items():
            if _asks_for_a_folder(one):
                yield f"{name} {more}"
        if not inner and _asks_for_a_folder(command):
            yield name


def _asks_for_a_folder(command: Any) -> bool:
    return any(one.name == "folder" for one in command.params)


def _names(typed: list[tuple[str, ...]]) -> Iterator[str]:
    for words in typed:
        yield words[0]
        yield " ".join(words[:2])
