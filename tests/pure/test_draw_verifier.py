"""The captain's verifier: one file, Python alone, and of one mind with the draw."""

import copy
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.season import verifier
from wholeball.season.draw import commit, draw, published

SECRET, NAMES = "a secret", ("Ants", "Bees", "Cats", "Dogs", "Elks")
COMMITTED = commit("place 2", NAMES, SECRET)
PUBLISHED: Any = published(COMMITTED, draw(COMMITTED, secret=SECRET, public="7 and 12"))
FIELDS = [(part, name) for part, fields in PUBLISHED.items() for name in fields]
SCRIPT = Path(verifier.__file__)


@settings(deadline=None)  # a busy machine is no fault
@given(
    label=st.text("abc|1: ", min_size=1, max_size=6),
    secret=st.text(min_size=1, max_size=8),
    public=st.text(min_size=1, max_size=8),
    n=st.integers(2, 30),
)
def test_the_verifier_agrees_with_every_draw(
    label: str, secret: str, public: str, n: int
) -> None:
    committed = commit(label, [f"team {number}" for number in range(n)], secret)
    drawn = draw(committed, secret=secret, public=public)
    assert verifier.wrong(json.loads(json.dumps(published(committed, drawn)))) == []


@pytest.mark.parametrize(("part", "name"), FIELDS)
def test_the_verifier_rejects_a_draw_with_one_field_changed(part: str, name: str) -> None:
    changed = copy.deepcopy(PUBLISHED)
    value = changed[part][name]
    changed[part][name] = value[::-1]
    assert verifier.wrong(changed) != []
    assert verifier.wrong(PUBLISHED) == []


def test_the_verifier_runs_from_a_copy_without_the_package(tmp_path: Path) -> None:
    script = tmp_path / "verify.py"
    script.write_text(SCRIPT.read_text(encoding="utf-8"), encoding="utf-8")
    done = _run(script, PUBLISHED)
    assert done.returncode == 0
    assert done.stdout.splitlines() == [
        "The draw is as committed:",
        *PUBLISHED["draw"]["order"],
        f"Commit: {COMMITTED.commit}",
        f"Participants: {COMMITTED.participants_hash}",
    ]


def test_the_verifier_says_what_is_wrong_and_fails(tmp_path: Path) -> None:
    script = tmp_path / "verify.py"
    script.write_text(SCRIPT.read_text(encoding="utf-8"), encoding="utf-8")
    changed = copy.deepcopy(PUBLISHED)
    changed["draw"]["order"].reverse()
    done = _run(script, changed)
    assert done.returncode == 1
    assert done.stdout.splitlines()[0] == "WRONG: order does not agree."


@pytest.mark.parametrize("value", [[], {}, {"commitment": 1, "draw": 2}, "draw"])
def test_the_verifier_says_in_a_sentence_that_a_file_is_no_draw(
    tmp_path: Path, value: object
) -> None:
    script = tmp_path / "verify.py"
    script.write_text(SCRIPT.read_text(encoding="utf-8"), encoding="utf-8")
    done = _run(script, value)
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (1, "", 1)
    assert done.stderr.startswith("Give a draw.json as published")


def test_the_verifier_without_a_file_says_how_it_is_run() -> None:
    command = [sys.executable, "-I", "-S", str(SCRIPT)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)  # noqa: S603  our own file
    assert (done.returncode, done.stdout, done.stderr.count("\n")) == (1, "", 1)


def test_the_verifier_is_short_enough_to_read() -> None:
    assert len(SCRIPT.read_text(encoding="utf-8").splitlines()) < 60


def _run(script: Path, value: Any) -> subprocess.CompletedProcess[str]:
    """Run it isolated (-I), so that neither the environment nor this folder can help."""
    data = script.with_name("draw.json")
    data.write_text(json.dumps(value), encoding="utf-8")
    command = [sys.executable, "-I", "-S", str(script), str(data)]
    return subprocess.run(command, capture_output=True, text=True, check=False)  # noqa: S603  our own file
