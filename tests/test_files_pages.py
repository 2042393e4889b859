"""Pages are made again over our own files only, and what is no more is taken out with them."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

from wholeball.files.pages import LIST, write_pages
from wholeball.kernel.faults import WholeballError

PAGES = {"index.html": b"index", "round-1.html": b"round 1", "assets/look.css": b"look"}
FEWER = {"index.html": b"index, anew", "assets/look.css": b"look"}


def held(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder but the list, by its path inside it."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != LIST
    }


def test_pages_go_into_a_folder_that_has_other_files(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_bytes(b"mine")
    write_pages(tmp_path, PAGES)
    assert held(tmp_path) == {**PAGES, "notes.txt": b"mine"}


def test_pages_made_again_lose_those_that_are_no_more_and_nothing_else(tmp_path: Path) -> None:
    write_pages(tmp_path, PAGES)
    (tmp_path / "notes.html").write_bytes(b"mine")
    write_pages(tmp_path, FEWER)
    assert held(tmp_path) == {**FEWER, "notes.html": b"mine"}
    write_pages(tmp_path, PAGES)
    assert held(tmp_path) == {**PAGES, "notes.html": b"mine"}


def test_an_old_page_that_somebody_has_changed_is_left(tmp_path: Path) -> None:
    write_pages(tmp_path, PAGES)
    (tmp_path / "round-1.html").write_bytes(b"round 1, with my words")
    write_pages(tmp_path, FEWER)
    assert held(tmp_path) == {**FEWER, "round-1.html": b"round 1, with my words"}


@pytest.mark.parametrize("name", PAGES)
def test_a_file_of_somebody_else_is_never_written_over(tmp_path: Path, name: str) -> None:
    (tmp_path / "assets").mkdir()
    (tmp_path / name).write_bytes(b"mine")
    with pytest.raises(WholeballError) as refused:
        write_pages(tmp_path, PAGES)
    assert str(refused.value) == (
        f"{tmp_path} has a file of another origin in the way: {name}. Nothing was written. "
        "Name another folder, or move them away."
    )
    assert held(tmp_path) == {name: b"mine"}


@pytest.mark.parametrize("name", ["../outside.txt", "/etc/outside.txt"])
def test_a_list_that_names_files_elsewhere_is_refused(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    (folder / LIST).write_text(f"{'0' * 64}  {name}\n")
    with pytest.raises(WholeballError, match="is not as Wholeball wrote it"):
        write_pages(folder, PAGES)
    assert held(folder) == {}


@pytest.mark.parametrize("data", [b"words\n", b"\xff\n"])
def test_a_list_that_is_none_is_refused(tmp_path: Path, data: bytes) -> None:
    (tmp_path / LIST).write_bytes(data)
    with pytest.raises(WholeballError, match="Name another folder, or take this one away"):
        write_pages(tmp_path, PAGES)
    assert held(tmp_path) == {}


def test_old_pages_come_back_when_the_disk_refuses_to_take_one_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_pages(tmp_path, PAGES)
    before, listed, real = held(tmp_path), (tmp_path / LIST).read_bytes(), os.replace

    def replace(source: Path, target: Path) -> None:
        if Path(source) == tmp_path / "round-1.html":
            raise OSError(13, "Permission denied", str(source))
        real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(WholeballError, match="Nothing was changed"):
        write_pages(tmp_path, FEWER)
    assert (held(tmp_path), (tmp_path / LIST).read_bytes()) == (before, listed)


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="no sha256sum on this machine")
def test_the_list_is_what_sha256sum_checks(tmp_path: Path) -> None:
    write_pages(tmp_path, PAGES)
    command = ["sha256sum", "--check", "--strict", LIST]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, check=False)  # noqa: S603
    assert done.stdout.splitlines() == [f"{name}: OK".encode() for name in sorted(PAGES)]
