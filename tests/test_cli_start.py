"""The command line starts, and Ctrl-C ends it without a traceback."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.paper_season import write_season

_STOPPED_WHILE_IMPORTING = """
import builtins, runpy
real = builtins.__import__
def stopped(name, *rest, **named):
    if name == "typer":
        raise KeyboardInterrupt
    return real(name, *rest, **named)
builtins.__import__ = stopped
runpy.run_module("wholeball", run_name="__main__")
"""


def test_ctrl_c_while_the_program_starts_prints_no_traceback() -> None:
    done = subprocess.run(  # noqa: S603 - our own interpreter
        [sys.executable, "-c", _STOPPED_WHILE_IMPORTING], capture_output=True, check=False
    )
    assert (done.returncode, done.stdout, done.stderr) == (128 + signal.SIGINT, b"", b"")


@pytest.mark.parametrize(("name", "status"), [("letter", 0), ("us-letter", 0), ("a5", 2)])
def test_letter_is_a_name_of_us_letter(
    run: Run, tmp_path: Path, name: str, status: int
) -> None:
    folder = write_season(tmp_path / "meadow")
    out = tmp_path / "cards.pdf"
    words = ("sheets", "scorecards", folder, "--night", "2026-09-15", "--out", out)
    assert run(*words, "--paper", name).status == status
    assert out.exists() == (status == 0)


@pytest.mark.parametrize("command", ["certify", "reopen"])
def test_who_decides_is_asked_where_it_was_not_given(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    folder = write_season(tmp_path / "meadow")
    asked: list[str] = []

    def answer(prompt: str) -> str:
        asked.append(prompt)
        return "Sam"

    monkeypatch.setattr("builtins.input", answer)
    told = run(command, folder, "M1", "--reason", "So.")
    assert (told.status, asked) == (1, ["Your name: "])
