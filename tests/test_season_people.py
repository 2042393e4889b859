"""Suspensions from a season folder, as its games were written down.

No outside source: the stories are of an invented league with its own rules.
"""

import json
from datetime import date
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.people_season import (
    LATER,
    NOBODY_CAME,
    RED,
    THURSDAY,
    card,
    enter,
    served,
    write_people,
)
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.paper import PaperCard, PaperForfeit, PaperPlayer, PaperRed, PaperYellow
from wholeball.reports.person_words import CAPTAIN_SEES, captain_words
from wholeball.season.eligibility import Eligibility
from wholeball.usecases.season_people import discipline_of, known_of


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_people(tmp_path / "meadow")


def barred(folder: Path, on: date) -> dict[str, list[tuple[str, str]]]:
    found = discipline_of(read_folder(FolderRecord(folder)), on)
    return {
        game: [(one.person, one.team) for one in people]
        for game, people in found.barred.items()
    }


def test_a_red_and_a_forfeit_that_serves_nothing_bar_everywhere_and_captains_read_no_reason(
    folder: Path,
) -> None:
    """One person under two spellings and one code is one person, in two leagues."""
    enter(folder, "A1", RED)
    enter(folder, "C1", NOBODY_CAME)
    assert barred(folder, THURSDAY) == {
        "A2": [("k-noor", "Ash")],
        "C2": [("k-noor", "Cedar")],
        "A3": [("k-noor", "Ash")],
    }
    read = read_folder(FolderRecord(folder))
    [game] = [one for one in read.timetable if one.game == "C2"]
    [line] = Eligibility(known_of(read, THURSDAY)).gate_list(game, "away")
    assert ([one.code for one in line.reasons], line.for_captain) == (["suspended"], ())
    assert [captain_words(one) for one in line.reasons] == [CAPTAIN_SEES]


def test_the_other_league_s_game_serves_once_it_is_played(folder: Path) -> None:
    enter(folder, "A1", RED)
    enter(folder, "C1", card())
    assert served(folder) == [("k-noor", "red", ["C1"])]
    assert barred(folder, THURSDAY) == {}


def test_what_is_entered_again_without_the_red_suspends_nobody(folder: Path) -> None:
    enter(folder, "A1", RED)
    enter(folder, "A1", RED.model_copy(update={"red": ()}), batch=2)
    assert served(folder) == []


def test_a_shirtless_team_needs_a_shirt_from_the_gate_for_its_red_to_find_a_person(
    folder: Path, run: Run
) -> None:
    red = (PaperRed(side="away", number=9),)
    enter(folder, "C1", card(red=red))
    assert served(folder) == []
    told = run("suspensions", folder, "--on", "2026-09-17")
    assert (
        "games/C1.jsonl: number 9 of Dogwood was shown red, and the roster has no such number. "
        "Compare with the scorecard, or add the player to rosters.csv."
    ) in told.out
    again = card(red=red, away_players=(PaperPlayer(9, "Pavol Vasconde"),))
    assert enter(folder, "C1", again, batch=2).remarks == ()
    assert served(folder) == [("Dogwood: Pavol Vasconde", "red", [])]


def test_three_yellows_in_three_games_serve_in_the_fourth(folder: Path) -> None:
    yellow = (PaperYellow(side="home", number=4), PaperYellow(side="away", number=4))
    for game in ("A1", "A3"):
        enter(folder, game, card(yellow=yellow[:1]))
    enter(folder, "A2", card(yellow=yellow[1:]))
    assert served(folder) == [("k-noor", "yellows", [])]


def test_whoever_plays_while_suspended_is_told_with_the_article(folder: Path, run: Run) -> None:
    enter(folder, "A1", RED)
    enter(folder, "A2", card(away_players=(PaperPlayer(4),)))
    told = run("suspensions", folder, "--on", "2026-09-18")
    assert "A2: Noor Zephirou for Ash (H 11.5); wholeball check says what follows" in told.out
    assert served(folder) == [("k-noor", "red", [])]
    found = json.loads(run("check", folder, "--on", "2026-09-18", "--json").out)
    assert [one["code"] for one in found["remarks"] if one["value"] == "A2"] == ["ineligible"]


def test_a_forfeit_annulled_later_makes_no_breach_of_a_game_played_in_good_faith(
    folder: Path,
) -> None:
    """A2 was given up and served the red of A1; annulled in October, it serves nothing."""
    book = folder / "rulebook.toml"
    book.write_text(book.read_text().replace('"played_only"', '"played_and_forfeits"'))
    enter(folder, "A1", RED)
    enter(folder, "A2", PaperCard(forfeit=PaperForfeit(by="home", why="not_ready")))
    enter(folder, "A3", card(home_players=(PaperPlayer(4),)))
    assert discipline_of(read_folder(FolderRecord(folder)), LATER).breaches == ()
    (folder / "rulings.csv").write_text(
        "ruling,date,game,ruled,ref,why\n1,2026-10-09,A2,annulled,H 1,Wrong field\n"
    )
    found = discipline_of(read_folder(FolderRecord(folder)), LATER)
    assert (found.breaches, [one.left for one in found.open]) == ((), [1])
