"""The files of a draw give back exactly what was drawn, or say which file is wrong."""

import json
from pathlib import Path

import pytest

from wholeball.files.draws import COMMITMENT, DRAW, KEPT
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.draw_lots import check_draw, commit_to_draw, reveal_draw

KNOWN = "seven times seven"
NAMES = ("Reds", "Blues", "محمد", "Zoë")


@pytest.mark.parametrize(
    "secret",
    ["plain", " spaces around ", "tab\t", "two\nlines", "a\n", "\n", "cr\r\nlf", "é😀"],
)
def test_a_draw_is_revealed_with_exactly_the_secret_committed_to(
    tmp_path: Path, secret: str
) -> None:
    commit_to_draw(
        FolderRecord(tmp_path / "draw"), label="pool A", participants=NAMES, secret=secret
    )
    drawn = reveal_draw(FolderRecord(tmp_path / "draw"), public="7 and 3")
    assert drawn.secret == secret
    assert sorted(drawn.order) == sorted(NAMES)
    assert check_draw(FolderRecord(tmp_path / "draw"), DRAW) == ()


def test_a_draw_is_committed_to_once_in_a_folder(tmp_path: Path) -> None:
    commit_to_draw(FolderRecord(tmp_path / "draw"), label="A", participants=NAMES, secret=KNOWN)
    with pytest.raises(WholeballError, match="is there already and not empty"):
        commit_to_draw(
            FolderRecord(tmp_path / "draw"), label="A", participants=NAMES, secret=KNOWN
        )
    assert (tmp_path / "draw" / KEPT).read_text() == f"{KNOWN}\n"


def test_only_its_owner_may_read_the_secret(tmp_path: Path) -> None:
    commit_to_draw(FolderRecord(tmp_path / "draw"), label="A", participants=NAMES, secret=KNOWN)
    assert (tmp_path / "draw" / KEPT).stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("name", [COMMITMENT, KEPT])
def test_a_file_that_is_missing_is_named(tmp_path: Path, name: str) -> None:
    commit_to_draw(FolderRecord(tmp_path / "draw"), label="A", participants=NAMES, secret=KNOWN)
    (tmp_path / "draw" / name).unlink()
    with pytest.raises(WholeballError) as refused:
        reveal_draw(FolderRecord(tmp_path / "draw"), public="7")
    assert refused.value.code == "missing_file"
    assert refused.value.says == f"{tmp_path / 'draw' / name} cannot be read."


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"not json",
        b"\xff\xfe",
        b"[]",
        b"{}",
        b'{"commitment": 1}',
        b"[" * 100_000,
        b'{"commitment": {"label": "\\ud800"}}',
    ],
)
def test_a_published_draw_that_is_none_is_refused(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "draw.json"
    path.write_bytes(data)
    with pytest.raises(WholeballError) as refused:
        check_draw(FolderRecord(path.parent), path.name)
    assert refused.value.code in {"type", "missing_file"}


@pytest.mark.parametrize(
    ("part", "key", "value"),
    [
        ("commitment", "label", "pool B"),
        ("commitment", "commit", "0" * 64),
        ("draw", "secret", "other"),
        ("draw", "public", "8"),
        ("draw", "seed", "0" * 64),
        ("draw", "order", ["Reds"]),
        ("draw", "participants", []),
    ],
)
def test_a_published_draw_that_was_changed_does_not_hold(
    tmp_path: Path, part: str, key: str, value: object
) -> None:
    commit_to_draw(
        FolderRecord(tmp_path / "draw"), label="pool A", participants=NAMES, secret=KNOWN
    )
    reveal_draw(FolderRecord(tmp_path / "draw"), public="7")
    path = tmp_path / "draw" / DRAW
    told = json.loads(path.read_text(encoding="utf-8"))
    told[part][key] = value
    path.write_text(json.dumps(told), encoding="utf-8")
    assert check_draw(FolderRecord(path.parent), path.name) != ()
