"""The people of a scorecard are found on the rosters, kept when it is entered again, and counted.

No outside source: the stories are of an invented league with its own rules.
"""

from pathlib import Path

import pytest

from cases.people_season import RED, card, enter, write_people
from wholeball.cli.scorecard_dialogue import Dialogue
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.paper import PaperPlayer, PaperYellow
from wholeball.kernel.identity import GameId
from wholeball.reports.entered import both_changes
from wholeball.usecases.enter_game import card_so_far, game_to_enter


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return write_people(tmp_path / "meadow")


def test_a_name_that_no_roster_has_is_doubted_when_it_is_entered(folder: Path) -> None:
    entered = enter(folder, "C1", card(away_players=(PaperPlayer(9, "Pavel Vascond"),)))
    assert [(one.code, one.says) for one in entered.remarks] == [
        (
            "unknown_player",
            "Dogwood has nobody called Pavel Vascond; it is kept as the scorecard has it.",
        )
    ]


def test_conduct_counts_a_person_once_by_the_worst_that_was_shown(folder: Path) -> None:
    """FIFA World Cup regulations: one deduction a player and match (from memory)."""
    shown = card(
        yellow=(
            PaperYellow(side="home", number=4),
            PaperYellow(side="home", number=4),
            PaperYellow(side="home", number=7),
        ),
    )
    enter(folder, "A1", shown)
    [result] = read_folder(FolderRecord(folder)).season.results
    assert result.home_cards is not None
    assert result.home_cards.in_order == (1, 1, 0, 0)


def test_conduct_counts_one_person_once_under_two_numbers(folder: Path) -> None:
    """Number 9 was given at the gate to the player who wears 4 on the roster."""
    shown = card(
        home_players=(PaperPlayer(9, "Noor Zephirou"), PaperPlayer(7)),
        yellow=tuple(PaperYellow(side="home", number=number) for number in (4, 9, 7)),
    )
    enter(folder, "A1", shown)
    read = read_folder(FolderRecord(folder))
    [result] = read.season.results
    assert result.home_cards is not None
    assert result.home_cards.in_order == (2, 0, 0, 0)


def test_typing_a_scorecard_again_keeps_the_players_that_its_file_said(folder: Path) -> None:
    enter(folder, "A1", RED)
    to = game_to_enter(FolderRecord(folder), GameId("A1"))
    dialogue = Dialogue(
        ask=lambda _: "",
        tell=lambda _: None,
        home=to.home,
        away=to.away,
        rules=to.rules,
        was=card_so_far(to),
    )
    assert dialogue.card().home_players == RED.home_players


def test_entering_other_players_tells_who_is_new_and_who_is_taken_back(folder: Path) -> None:
    enter(
        folder, "A1", card(home_players=(PaperPlayer(4), PaperPlayer(name="Umaru Kealohana")))
    )
    again = card(home_players=(PaperPlayer(4), PaperPlayer(9, "Umaru Kealohana")))
    entered = enter(folder, "A1", again, batch=2)
    assert both_changes(entered.before, entered.gone, entered.after, entered.new) == (
        ("Before kick-off: Umaru Kealohana of Ash is checked in.",),
        ("Before kick-off: Umaru Kealohana of Ash, with number 9, is checked in.",),
    )


def test_a_shirt_from_the_gate_is_known_when_its_yellow_is_entered_later(
    tmp_path: Path,
) -> None:
    people = "team,number,name\nDogwood,3,Bodil Lindqvar\nDogwood,,Pavol Vasconde\n"
    folder = write_people(tmp_path / "shirts", rosters=people)
    players = (PaperPlayer(3), PaperPlayer(9, "Pavol Vasconde"))
    assert enter(folder, "C1", card(away_players=players)).remarks == ()
    yellow = (PaperYellow(side="away", number=9), PaperYellow(side="away", number=8))
    again = enter(folder, "C1", card(away_players=players, yellow=yellow), batch=2)
    assert [one.says for one in again.remarks] == [
        "Dogwood has no number 8; it is kept as the scorecard has it."
    ]
