"""Ratings of a season folder: what the coordinator sees by default, and what only with --staff."""

import json
from itertools import product
from pathlib import Path
from typing import Any, Final

import pytest

from cases.command_line import Run
from cases.logged import HALF, Timed, certify, log, played
from wholeball.game.happenings import Rated, SentOff
from wholeball.reports.ratings_words import NO_TEAM_DIFFERS, NOBODY, PRIVATE, UNTOLD
from wholeball.rulebook.load import load

BOOK: Final = """base = "laws-2025-26"
crew = { size = 3, roles = ["lead", "trail", "scorekeeper"], least = 2, system = "dual" }
[ratings]
by = "officials"
scale = { low = 1, high = 5, step = 0.5 }
reason_at_or_below = 2
cap_after_sending_off = 3
floor = 1
minimum_count = 2
play_off_minimum = 3.5
[ratings.given]
forfeiting = 2
defaulting = 4
ready = 5
[standings]
criteria = ["points", "ratings_average"]
last_resort = "shared"
"""
DIGEST: Final = load(BOOK.encode(), file="rulebook.toml").rulebook.digest
FOLDER: Final = {
    "season.toml": """schema = 1
name = "Lantern Hill"
timezone = "Europe/London"
first_day = 2026-09-01
last_day = 2026-12-01
""",
    "rulebook.toml": BOOK,
    "teams.csv": "team\nVoles\nHerons\nOtters\n",
    "results.csv": "game,round,home,away,home_goals,away_goals,how,by,home_rating,away_rating\n"
    "g4,4,Herons,Voles,,,forfeit,home,,\n",
    "timetable.csv": "game,round,date,start,field,home,away\n"
    "g1,1,2026-10-06,19:00,North,Herons,Otters\n"
    "g2,2,2026-10-13,19:00,North,Otters,Voles\n"
    "g3,3,2026-10-20,19:00,North,Voles,Herons\n"
    "g4,4,2026-10-27,19:00,North,Herons,Voles\n",
    "officials.csv": "official\nSam\nKim\nAlex\n",
    "crews.csv": "game,role,official\n"
    "g1,trail,Kim\ng1,lead,Sam\ng1,scorekeeper,Alex\n"
    "g2,lead,Sam\ng2,trail,Kim\ng3,lead,Kim\n",
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in FOLDER.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    _recorded(tmp_path, "g1", _rated("home", 400, 350), _rated("away", 100, 250))
    red: list[Timed] = [(2, HALF - 60, SentOff(side="home", number=4))]
    _recorded(tmp_path, "g2", red, _rated("home", 400, 300), _rated("away", 500, 400))
    _recorded(tmp_path, "g3", _rated("home", 350), _rated("away", 300))
    return tmp_path


def test_the_coordinator_sees_averages_gates_rules_and_what_to_look_at(
    folder: Path, run: Run
) -> None:
    told = run("ratings", folder)
    assert (told.status, told.out) == (
        0,
        """Lantern Hill, sportsmanship ratings
An average counts from 2 rated games on, and play-offs need 3.5; nothing is rounded.

Team    Games rated              Average  For the play-offs
Voles             3   13/3 (about 4.333)             enough
Herons            3  35/12 (about 2.917)          below 3.5
Otters            2                2.375          below 3.5

Counted by rule:
  Voles, game g4: 5, which a game given up brings.
  Herons, game g4: 2, which a game given up brings.
  Otters, game g2: 3 counts of 3.5, after a red.

To look at, 3; nothing follows by itself:
  Otters, game g1: 1, given by Sam. A rating of 1 or lower goes to the coordinator.
  Otters, game g1: 1, given by Sam. A rating of 2 or lower needs a written reason, and this one has none.
  Otters, game g2: 4, given by Sam. A side with a red gets at most 3; that is what counts.
""",
    )


def test_what_is_private_is_told_with_staff_alone(folder: Path, run: Run) -> None:
    plain, staff = run("ratings", folder), run("ratings", folder, "--staff")
    assert staff.out.startswith(plain.out)
    more = staff.out.removeprefix(plain.out).splitlines()
    assert more[:2] == ["", PRIVATE]
    assert (
        "Of single officials nothing is told before 8 of them have 4 games each (our own rule "
        "of thumb)."
    ) in more
    assert "Two officials rated the same side 3 times, alike in 0 of them" in staff.out


def test_json_has_exact_values_and_the_private_part_with_staff_alone(
    folder: Path, run: Run
) -> None:
    plain = _json(run, "ratings", folder, "--json")
    assert set(plain) == {
        "league",
        "rated_by",
        "counts_from",
        "play_offs_need",
        "teams",
        "review",
    }
    assert [(one["team"], one["exact"], one["gate"]) for one in plain["teams"]] == [
        ("Voles", "13/3", "passes"),
        ("Herons", "35/12", "below"),
        ("Otters", "19/8", "below"),
    ]
    assert plain["teams"][2]["games"] == [
        {"game": "g1", "round": 1, "counts": "7/4", "source": "rated", "was": None},
        {"game": "g2", "round": 2, "counts": "3", "source": "capped", "was": "7/2"},
    ]
    assert [(one["game"], one["why"]) for one in plain["review"]] == [
        ("g1", "floor"),
        ("g1", "no_reason"),
        ("g2", "above_cap"),
    ]
    staff = _json(run, "ratings", folder, "--json", "--staff")
    assert {key: staff[key] for key in plain} == plain
    assert [(one["team"], one["ratings"]) for one in staff["staff"]["teams"]] == [
        ("Voles", 3),
        ("Herons", 3),
        ("Otters", 2),
    ]


def test_teams_that_do_not_differ_get_no_estimate(folder: Path, run: Run) -> None:
    _again(folder, "g1", _rated("home", 400, 300), _rated("away", 300, 400))
    _again(folder, "g2", _rated("home", 400, 300), _rated("away", 300, 400))
    _again(folder, "g3", _rated("home", 350), _rated("away", 350))
    out = run("ratings", folder, "--staff").out
    assert NO_TEAM_DIFFERS in out
    assert "By a typical official" not in out


def test_officials_who_never_share_a_team_split_the_league(folder: Path, run: Run) -> None:
    """Eight teams, two fields, and officials who each keep to one."""
    teams, crews, timetable = [], [], []
    for field, number in product("AB", range(12)):
        home, away = f"{field}{number % 4}", f"{field}{(number + 1 + number // 4) % 4}"
        game = f"{field}{number}"
        teams += [home, away]
        timetable.append(
            f"{game},{number + 1},2026-10-{number + 1:02},19:00,{field},{home},{away}"
        )
        crews.append(f"{game},lead,{field} {('Sam', 'Kim', 'Alex', 'Jo', 'Lee')[number % 5]}")
        first, second = 250 + 50 * (number % 4), 300 + 50 * ((number * 7) % 5)
        _recorded(folder, game, _rated("home", first), _rated("away", second))
    _write(folder, "teams.csv", "team", sorted(set(teams)))
    _write(folder, "timetable.csv", "game,round,date,start,field,home,away", timetable)
    _write(folder, "crews.csv", "game,role,official", crews)
    _write(folder, "officials.csv", "official", sorted({one.split(",")[2] for one in crews}))
    _write(folder, "results.csv", "game,round,home,away,home_goals,away_goals", [])
    for game in ("g1", "g2", "g3"):
        (folder / "games" / f"{game}.jsonl").unlink()
    told = run("ratings", folder, "--staff")
    assert "Not comparable, since no official rated teams of both:" in told.out
    assert (
        "  Group 1: A0, A1, A2 and A3; rated by A Alex, A Jo, A Kim, A Lee and A Sam."
        in told.out
    )
    assert "  Group 2: B0, B1, B2 and B3; rated by" in told.out


def test_ratings_without_crews_are_of_nobody(folder: Path, run: Run) -> None:
    (folder / "crews.csv").unlink()
    told = run("ratings", folder, "--staff")
    assert UNTOLD["nobody"] in told.out
    assert "Otters, game g1: 1, given by an official whom no crew names." in told.out


def test_a_league_in_which_nobody_rates_says_so(folder: Path, run: Run) -> None:
    book = f'{BOOK[: BOOK.index("[ratings]")]}[standings]\nlast_resort = "shared"\n'
    (folder / "rulebook.toml").write_text(book)
    assert run("ratings", folder, "--staff").out == f"{NOBODY}\n"
    assert "staff" not in _json(run, "ratings", folder, "--staff", "--json")


def test_a_folder_that_is_none_is_refused(tmp_path: Path, run: Run) -> None:
    told = run("ratings", tmp_path / "nowhere")
    assert (told.status, told.out) == (1, "")
    assert "nowhere is no folder." in told.err


def _rated(side: str, *hundredths: int) -> list[Timed]:
    by = ("official", "second_official")
    return [
        (2, HALF, Rated(side=side, by=who, hundredths=each))  # type: ignore[arg-type]
        for who, each in zip(by, hundredths, strict=False)
    ]


def _recorded(folder: Path, game: str, *happened: list[Timed]) -> None:
    whole = [*played(2, 1), *(one for part in happened for one in part)]
    certify(folder, game, log(folder, game, whole, book=DIGEST), book=DIGEST)


def _again(folder: Path, game: str, *happened: list[Timed]) -> None:
    (folder / "games" / f"{game}.jsonl").unlink()
    _recorded(folder, game, *happened)


def _write(folder: Path, name: str, header: str, rows: list[str]) -> None:
    (folder / name).write_text("\n".join([header, *rows, ""]), encoding="utf-8")


def _json(run: Run, *words: object) -> Any:
    told = run(*words)
    assert told.status == 0, told.err
    return json.loads(told.out)
