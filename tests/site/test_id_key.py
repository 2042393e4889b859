"""The key for student ids is that of the environment, or that of the data folder, never two."""

from pathlib import Path
from typing import Final

import pytest

from wholeball.desk.id_key import id_key
from wholeball.kernel.faults import WholeballError
from wholeball.site.checks import id_key_findings
from wholeball.site.environment import environment

ONE: Final = "a key of sixteen and more"
OTHER: Final = "another key, of the same size"


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, settings: object) -> None:
    settings.DATA_FOLDER = tmp_path  # type: ignore[attr-defined]
    settings.ID_KEY = ""  # type: ignore[attr-defined]


def test_without_a_key_in_the_environment_one_is_made_once_for_this_account_alone(
    tmp_path: Path,
) -> None:
    assert not (tmp_path / "id.key").exists()
    made = id_key()
    assert id_key() == made
    assert (tmp_path / "id.key").read_bytes().strip() == made.secret
    assert (tmp_path / "id.key").stat().st_mode & 0o777 == 0o600


def test_the_key_of_the_environment_is_used_and_none_is_made_beside_it(
    tmp_path: Path, settings: object
) -> None:
    settings.ID_KEY = ONE  # type: ignore[attr-defined]
    assert id_key().secret == ONE.encode()
    assert not (tmp_path / "id.key").exists()


@pytest.mark.parametrize(("kept", "is_refused"), [(ONE, False), (OTHER, True)])
def test_of_two_keys_that_differ_neither_is_used(
    tmp_path: Path, settings: object, kept: str, *, is_refused: bool
) -> None:
    settings.ID_KEY = ONE  # type: ignore[attr-defined]
    (tmp_path / "id.key").write_text(f"{kept}\n")
    here = environment({"WHOLEBALL_DATA": str(tmp_path), "WHOLEBALL_ID_KEY": ONE})
    told = [str(one) for one in id_key_findings(here)]
    if not is_refused:
        assert (id_key().secret, told) == (ONE.encode(), [])
        return
    with pytest.raises(WholeballError, match="is another than") as refused:
        id_key()
    assert refused.value.code == "key"
    assert len(told) == 1
    assert "WHOLEBALL_ID_KEY is another than" in told[0]
    assert [one for one in (ONE, OTHER) if one in f"{refused.value}{told}"] == []


def test_a_key_that_is_too_short_refuses_the_start_and_the_import(
    tmp_path: Path, settings: object
) -> None:
    settings.ID_KEY = "x" * 15  # type: ignore[attr-defined]
    here = environment({"WHOLEBALL_DATA": str(tmp_path), "WHOLEBALL_ID_KEY": "x" * 15})
    (found,) = id_key_findings(here)
    assert (found.level, found.code) == ("refuse", "key")
    with pytest.raises(WholeballError, match="15 characters"):
        id_key()


def test_a_machine_without_any_key_may_start(tmp_path: Path) -> None:
    assert id_key_findings(environment({"WHOLEBALL_DATA": str(tmp_path)})) == []
    id_key()
    assert id_key_findings(environment({"WHOLEBALL_DATA": str(tmp_path)})) == []


def test_no_key_is_told_with_the_environment(tmp_path: Path) -> None:
    given = {"WHOLEBALL_DATA": str(tmp_path), "WHOLEBALL_SECRET_KEY": OTHER}
    here = environment({**given, "WHOLEBALL_ID_KEY": ONE})
    assert [one for one in (ONE, OTHER) if one in repr(here)] == []
