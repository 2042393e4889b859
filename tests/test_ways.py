"""What mends something is told as people do it there: by a command, or on a page."""

import re
from pathlib import Path
from typing import Final, get_args

import pytest
import typer

import wholeball.desk
from wholeball.cli.id_key import VARIABLE
from wholeball.cli.main import app
from wholeball.files.commands import Commands
from wholeball.league.ways import ToDo, on_pages

DEEDS: Final = get_args(ToDo)
TOLD: Final = {"game": "M1", "to": "home", "ref": "H 3.5"}
DESK: Final = Path(wholeball.desk.__file__).parent / "templates" / "desk"


@pytest.mark.parametrize("to_do", [one for one in DEEDS if one != "id_key"])
def test_a_folder_is_told_a_command_that_there_is_with_options_that_it_has(
    to_do: ToDo,
) -> None:
    told = Commands("meadow")(to_do, **TOLD)
    commands = re.findall(r"wholeball (\w+)(?: (commit))?([^;]*)", told)
    assert commands
    for verb, second, rest in commands:
        words = typer.main.get_command(app)
        for name in filter(None, (verb, second)):
            words = words.commands[name]  # type: ignore[attr-defined]
        options = {option for one in words.params for option in one.opts}
        assert set(re.findall(r"--\w+", rest)) <= options
    assert ("meadow" in told) == (to_do != "draw_lots")


def test_a_folder_is_told_where_the_key_for_student_ids_is_given() -> None:
    assert Commands("meadow")("id_key") == f"{VARIABLE}, or its key file"


@pytest.mark.parametrize("to_do", DEEDS)
def test_a_page_is_told_no_command_and_no_file(to_do: ToDo) -> None:
    told = on_pages(to_do, **TOLD)
    assert re.findall(r"wholeball|--|DIR|NAME|TEXT|\.csv|\.toml|\.jsonl", told) == []
    assert told.endswith(".")


@pytest.mark.parametrize(
    ("to_do", "page", "label"),
    [
        ("answer", "game", "Open questions"),
        ("award", "game", "Rule on the game"),
        ("bring_back", "game", "Bring back what was taken back"),
        ("certify", "game", "Certify the result"),
        ("certify_one", "game", "Certify the result"),
        ("enter", "game", "Mend the scorecard"),
        ("reopen", "game", "Reopen the result"),
        ("rule", "game", "Rule on the game"),
        ("take_back", "game", "Take back the last entering"),
        ("explain", "calendar", "Plan, repair, explain"),
        ("plan", "calendar", "Plan, repair, explain"),
        ("bracket", "season", "Bracket"),
    ],
)
def test_what_a_page_is_told_to_press_stands_on_that_page(
    to_do: ToDo, page: str, label: str
) -> None:
    assert label in on_pages(to_do, **TOLD)
    assert f">{label}<" in re.sub(r"\{%.*?%\}", "<>", (DESK / f"{page}.html").read_text())
