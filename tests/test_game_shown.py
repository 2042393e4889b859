"""A game of a season folder is explained in the terminal, as JSON and as a page."""

import json
import shutil
from html.parser import HTMLParser
from pathlib import Path
from typing import get_args

import pytest

from cases.command_line import Run
from cases.told_games import by_mercy
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append, log_name
from wholeball.files.log_doubts import SAYS
from wholeball.game.envelope import Code, Draft, Entry, seal
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import Noted, Retracted

ROOT = Path(__file__).resolve().parents[1]
TO = "\N{EN DASH}"
HEAD = "game,round,date,start,field,home,away,stage\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Copy the example league, and add a game to be played between two of its teams."""
    league = tmp_path / "league"
    played = shutil.ignore_patterns("games", "cards")
    shutil.copytree(ROOT / "examples" / "lantern-hill", league, ignore=played)
    teams = read_folder(FolderRecord(league)).season.league.teams
    row = f"X1,9,2026-11-24,19:05,Field 1,{teams[0].team},{teams[1].team},\n"
    (league / "timetable.csv").write_text(HEAD + row)
    return league


def _record(folder: Path, events: list[Event]) -> None:
    digest = read_folder(FolderRecord(folder)).season.rulebook.digest
    last: Entry | None = None
    entries = []
    for number, event in enumerate(events, start=1):
        wall = 1_795_000_000_000 + number
        draft = Draft(
            id=_id(number),
            game="X1",
            dev="phone-1",
            hlc=(wall, 0),
            wall=wall,
            mono=number,
            at=event.at,
            who="rec",
            role="scorekeeper",
            what=event.what,
            seen={},
            rb=digest,
        )
        last = seal(draft, after=last)
        entries.append(last)
    append(FolderRecord(folder), "X1", entries)


def _id(number: int) -> str:
    return f"01900000-0000-7000-8000-{number:012x}"


def test_a_game_is_explained_with_the_article_that_ended_it(run: Run, folder: Path) -> None:
    _record(folder, by_mercy())
    status, out, err = run("game", folder, "X1")
    home, away = (
        team.team for team in read_folder(FolderRecord(folder)).season.league.teams[:2]
    )
    lines = out.splitlines()
    assert (status, err) == (0, "")
    assert lines[:4] == [
        f"Game X1, {home} v {away}",
        (
            "The game is over. It ended by the mercy rule, in the second half with 8:00 left, "
            f"minute 37: H 10.1, Mercy rule. {home} wins. Played 9{TO}1, counts 9{TO}0."
        ),
        f"First half: 8{TO}0",
        f"Second half: 1{TO}0",
    ]
    assert (
        f"  In the second half with 8:00 left, minute 37: The mercy rule ends the game: {home} "
        "leads by 9 goals with 8:00 left. (H 10.1, Mercy rule)"
    ) in lines


def test_json_gives_the_codes_and_figures(run: Run, folder: Path) -> None:
    _record(folder, by_mercy())
    status, out, _ = run("game", folder, "X1", "--json")
    told = json.loads(out)
    assert status == 0
    assert (told["phase"], told["played"], told["result"], told["winner"]) == (
        "over",
        [9, 1],
        [9, 0],
        "home",
    )
    assert told["ending"] == {
        "how": "mercy",
        "at": [2, 840],
        "when": "in the second half with 8:00 left, minute 37",
        "article": "mercy",
        "by": None,
    }
    assert [asked["code"] for asked in told["questions"]] == ["mercy"]


def test_a_goal_that_was_taken_back_is_told_nowhere(run: Run, folder: Path) -> None:
    goals = by_mercy()[:3]
    back = Event("back", Moment(1, 200), (0, 0, "a", 0), Retracted(target=_id(2)))
    _record(folder, [*goals, back])
    told = json.loads(run("game", folder, "X1", "--json")[1])
    assert told["score"] == [1, 0]
    assert [row["says"] for row in told["happened"] if row["says"].startswith("Goal")] == [
        f"Goal by number 7 of {told['home']}: 1{TO}0."
    ]


def test_a_note_is_told_to_officials_only(run: Run, folder: Path) -> None:
    note = Event("n", Moment(1, 5), (0, 0, "a", 0), Noted(text="Gate was locked."))
    _record(folder, [by_mercy()[0], note])
    assert "Gate" not in run("game", folder, "X1")[1]
    assert "Note: Gate was locked." in run("game", folder, "X1", "--officials")[1]


def test_a_game_nobody_recorded_says_so(run: Run, folder: Path) -> None:
    _, out, _ = run("game", folder, "X1")
    assert out.splitlines()[1] == "Nothing is recorded yet."


def test_a_game_that_is_not_listed_is_refused_with_the_nearest(run: Run, folder: Path) -> None:
    assert run("game", folder, "x1") == (
        1,
        "",
        "There is no game x1 in timetable.csv or results.csv. Did you mean X1?\n",
    )


def test_an_entry_of_another_rulebook_is_remarked_on(run: Run, folder: Path) -> None:
    _record(folder, by_mercy()[:2])
    rulebook = folder / "rulebook.toml"
    rulebook.write_text(rulebook.read_text().replace("lead = 9", "lead = 8"))
    _, _, err = run("game", folder, "X1")
    assert err == (
        f"{log_name('X1')}: 2 of 2 entries were made under another rulebook. "
        "Look whether the rulebook was changed after the game.\n"
    )


def test_a_log_with_a_missing_entry_is_told_up_to_it_with_a_remark(
    run: Run, folder: Path
) -> None:
    _record(folder, by_mercy()[:4])
    log = folder / log_name("X1")
    first, _, *rest = log.read_bytes().splitlines(keepends=True)
    log.write_bytes(b"".join((first, *rest)))
    status, out, err = run("game", folder, "X1")
    assert status == 0
    assert err == (
        f"{log_name('X1')}: Entry 2 of device phone-1 is missing; what follows it is left out. "
        "Fetch the device's entries again.\n"
    )
    assert f"so far 0{TO}0." in out


def test_a_log_that_cannot_be_read_is_refused_as_json_too(run: Run, folder: Path) -> None:
    log = folder / log_name("X1")
    log.parent.mkdir()
    log.write_bytes(b"not an entry\n")
    status, out, _ = run("game", folder, "X1", "--json")
    told = json.loads(out)
    assert status == 1
    assert told["ok"] is False
    assert [(one["file"], one["line"]) for one in told["faults"]] == [(log_name("X1"), 1)]


def test_every_finding_about_a_log_has_words() -> None:
    assert set(SAYS) == set(get_args(Code))


def test_a_page_of_the_game_is_written_with_all_it_needs(run: Run, folder: Path) -> None:
    _record(folder, by_mercy())
    page = folder.parent / "out" / "game.html"
    status, out, _ = run("game", folder, "X1", "--html", page)
    assert status == 0
    assert out.splitlines()[-1] == str(page)
    links = _Links()
    links.feed(page.read_text())
    assert links.heads == 1
    assert [one for one in links.to if not (page.parent / one).exists()] == []
    assert "Tuesday 24 November 2026, 19:05, Field 1" in page.read_text()


class _Links(HTMLParser):
    """Collects what a page links to in its own folder, and counts its main headings."""

    def __init__(self) -> None:
        super().__init__()
        self.to: list[str] = []
        self.heads = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.heads += tag == "h1"
        self.to += [
            value
            for name, value in attrs
            if name in ("href", "src") and value and not value.startswith("#")
        ]
