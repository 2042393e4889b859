"""Lots are drawn at the command line: promised, made once, and checked by anybody."""

import json
from pathlib import Path
from typing import Any

import pytest

from cases.command_line import Run
from wholeball.season.verifier import wrong


def test_a_draw_goes_from_commitment_to_a_check_that_anyone_can_run(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "lots"
    committed = run("draw", "commit", folder, "Moths", "Gravel", "Otters", "--label", "pool A")
    assert committed.status == 0
    assert (folder / "secret.txt").stat().st_mode & 0o077 == 0
    told = run("draw", "reveal", folder, "--public", "7 and 12")
    published: dict[str, Any] = json.loads((folder / "draw.json").read_text())
    assert [line[3:] for line in told.out.splitlines()[:3]] == published["draw"]["order"]
    assert (wrong(published), run("draw", "check", folder / "draw.json").status) == ([], 0)


def test_a_draw_that_was_changed_does_not_hold(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "lots"
    run("draw", "commit", folder, "Moths", "Gravel", "--label", "pool A", "--secret", "s")
    run("draw", "reveal", folder, "--public", "7")
    file = folder / "draw.json"
    file.write_text(file.read_text().replace('"public": "7"', '"public": "8"'))
    told = run("draw", "check", file)
    assert (told.status, told.out.splitlines()[0]) == (
        1,
        "The seed is not that of secret and public text.",
    )


@pytest.mark.parametrize("secret", [" s ", "\ttab", "a  b"])
def test_a_secret_is_kept_exactly_as_it_was_given(
    run: Run, tmp_path: Path, secret: str
) -> None:
    folder = tmp_path / "lots"
    run("draw", "commit", folder, "Moths", "Gravel", "--label", "A", "--secret", secret)
    assert run("draw", "reveal", folder, "--public", "7").status == 0
    assert json.loads((folder / "draw.json").read_text())["draw"]["secret"] == secret


@pytest.mark.parametrize("secret", ["", "\n", "two\nlines", "end\r"])
def test_a_secret_of_no_line_or_several_is_refused(
    run: Run, tmp_path: Path, secret: str
) -> None:
    folder = tmp_path / "lots"
    told = run("draw", "commit", folder, "Moths", "Gravel", "--label", "A", "--secret", secret)
    assert (told.status, told.out, folder.exists()) == (1, "", False)
    assert told.err.startswith("The secret is not one line of text.")


def test_a_draw_is_made_once(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "lots"
    run("draw", "commit", folder, "Moths", "Gravel", "--label", "A")
    run("draw", "reveal", folder, "--public", "7")
    before = (folder / "draw.json").read_bytes()
    told = run("draw", "reveal", folder, "--public", "8")
    assert (told.status, told.out, (folder / "draw.json").read_bytes()) == (1, "", before)
    assert "A draw is made once; another needs another label and folder" in told.err


def test_a_commitment_whose_participants_were_changed_is_refused(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "lots"
    run("draw", "commit", folder, "Moths", "Gravel", "--label", "A")
    file = folder / "commitment.json"
    file.write_text(file.read_text().replace("Moths", "Otters"))
    told = run("draw", "reveal", folder, "--public", "7")
    assert (told.status, (folder / "draw.json").exists()) == (1, False)
    assert "the participants are not those of participants_hash" in told.err


def test_a_check_holds_the_participants_to_their_hash_and_prints_both_hashes(
    run: Run, tmp_path: Path
) -> None:
    folder = tmp_path / "lots"
    run("draw", "commit", folder, "Moths", "Gravel", "--label", "A")
    run("draw", "reveal", folder, "--public", "7")
    file = folder / "draw.json"
    before = json.loads(file.read_text())["commitment"]
    commit, participants = before["commit"], before["participants_hash"]
    told = run("draw", "check", file)
    assert told.out.splitlines()[-2:] == [f"Commit: {commit}", f"Participants: {participants}"]
    file.write_text(file.read_text().replace(participants, "0" * 64))
    told = run("draw", "check", file)
    assert (told.status, told.out.splitlines()[0]) == (
        1,
        "The participants are not those of participants_hash.",
    )
