"""The command tells what it added and what it made of the ids, and keeps the key outside."""

import json
import os
import stat
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.roster_season import MOTHS, season_of_three


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """A season of three teams in two divisions."""
    return season_of_three(tmp_path / "season")


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A person's settings, with no key yet."""
    monkeypatch.delenv("WHOLEBALL_ID_KEY", raising=False)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "settings"))
    return tmp_path / "settings"


def listed(folder: Path, text: str) -> Path:
    file = folder / "list.csv"
    file.write_text(text)
    return file


def test_a_key_is_made_once_for_its_owner_alone_and_told(
    run: Run, season: Path, tmp_path: Path, home: Path
) -> None:
    file = listed(tmp_path, "student_id;name\n0012;Ann\n")
    first = run("roster", "add", season, file, "--team", MOTHS)
    kept = home / "wholeball" / "id.key"
    assert first.status == 0
    assert "parted by semicolons" in first.out
    assert "1 player added to Paper Moths, which has 1." in first.out
    assert str(kept) in first.out
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    again = run("roster", "add", season, file, "--team", MOTHS)
    assert "1 player already on the roster" in again.out
    assert str(kept) not in again.out


@pytest.mark.parametrize("text", ["student_id,name\n1.0,Ann\n", "student_id,name\n0012,Ann\n"])
def test_a_refused_list_and_a_dry_run_write_nothing_not_even_a_key(
    run: Run, season: Path, tmp_path: Path, home: Path, text: str
) -> None:
    before = sorted(season.rglob("*"))
    ended = run("roster", "add", season, listed(tmp_path, text), "--team", MOTHS, "--dry-run")
    assert ended.status == ("1.0" in text)
    assert sorted(season.rglob("*")) == before
    assert not home.exists()


def test_a_key_that_others_may_read_or_that_is_short_is_refused(
    run: Run, season: Path, tmp_path: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    words = (
        "roster",
        "add",
        season,
        listed(tmp_path, "student_id,name\n1,A\n"),
        "--team",
        MOTHS,
    )
    kept = home / "wholeball" / "id.key"
    kept.parent.mkdir(parents=True)
    kept.write_text("sixteen letters.")
    kept.chmod(0o640)
    assert "Others on this machine may read" in run(*words).err
    kept.chmod(0o600)
    assert run(*words).status == 0
    monkeypatch.setenv("WHOLEBALL_ID_KEY", "sixteen letters")
    assert "has 15 characters" in run(*words).err


def test_a_key_never_stands_in_the_season_folder(
    run: Run, season: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("WHOLEBALL_ID_KEY", raising=False)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(season / "settings"))
    file = listed(tmp_path, "student_id,name\n1,A\n")
    assert (
        "would be in the season folder"
        in run("roster", "add", season, file, "--team", MOTHS).err
    )
    assert not (season / "settings").exists()


@pytest.mark.usefixtures("home")
def test_values_for_programs_tell_at_most_a_hundred_faults_and_their_number(
    run: Run, season: Path, tmp_path: Path
) -> None:
    text = "student_id,name\n" + "1.0,Ann\n" * 101
    ended = run("roster", "add", season, listed(tmp_path, text), "--team", MOTHS, "--json")
    values = json.loads(ended.out)
    assert (ended.status, values["ok"], values["count"]) == (1, False, 101)
    assert len(values["faults"]) == 100


@pytest.mark.usefixtures("home")
@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script>", "Robert'); DROP TABLE player;--", "{{7*7}}", "\u0645"]
)
def test_a_hostile_name_is_shown_as_it_is_written(
    run: Run, season: Path, tmp_path: Path, name: str
) -> None:
    file = listed(tmp_path, f"student_id,name\n0012,{name}\n")
    values = json.loads(run("roster", "add", season, file, "--team", MOTHS, "--json").out)
    assert values["added"] == [{"number": None, "name": name, "captain": False}]
    assert values["written"] is True


@pytest.mark.usefixtures("home")
def test_a_name_that_would_turn_a_terminal_is_shown_by_its_code_point(
    run: Run, season: Path, tmp_path: Path
) -> None:
    file = listed(tmp_path, "student_id,name\n0012,Ann\u202e\x1b[31m\n")
    ended = run("roster", "add", season, file, "--team", MOTHS)
    assert "U+202E" in ended.err
    assert "\u202e" not in ended.err
    assert os.linesep + "Nothing was written." in ended.err
