"""Files are written all or none, and what stood there before comes back if the disk refuses."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from wholeball.files.folder_record import FolderRecord
from wholeball.files.new_record import write_new
from wholeball.files.write import write_files
from wholeball.kernel.faults import WholeballError

NEW = {"a.txt": b"new a", "b.txt": b"new b", "deep/c.txt": b"new c"}
Refuse = Callable[[str], None]


def held(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder by its path inside it."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


@pytest.fixture
def refuse(monkeypatch: pytest.MonkeyPatch) -> Refuse:
    """Make the disk refuse to move a file of some name in."""
    real = os.replace

    def make(name: str) -> None:
        def replace(source: Path, target: Path) -> None:
            if Path(target).name == name and Path(source).parts[-2:] != ("old", name):
                raise OSError(28, "No space left on device", str(target))
            real(source, target)

        monkeypatch.setattr(os, "replace", replace)

    return make


def test_files_are_written_into_a_folder_made_for_them(tmp_path: Path) -> None:
    write_files(tmp_path / "x" / "y", NEW)
    assert held(tmp_path / "x" / "y") == NEW


def test_files_are_written_over_and_others_left_alone(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"old a")
    (tmp_path / "other.txt").write_bytes(b"other")
    write_files(tmp_path, NEW)
    assert held(tmp_path) == {**NEW, "other.txt": b"other"}


@pytest.mark.parametrize("name", ["a.txt", "b.txt", "c.txt"])
def test_nothing_has_changed_when_the_disk_refuses_half_way(
    tmp_path: Path, refuse: Refuse, name: str
) -> None:
    (tmp_path / "a.txt").write_bytes(b"old a")
    before = held(tmp_path)
    refuse(name)
    with pytest.raises(WholeballError) as refused:
        write_files(tmp_path, NEW)
    assert held(tmp_path) == before
    assert refused.value.code == "storage"
    assert refused.value.says.endswith(f"{name} cannot be written: No space left on device.")
    assert refused.value.fix.startswith("Nothing was changed.")


def test_nothing_has_changed_when_a_folder_stands_where_a_file_should(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_bytes(b"old a")
    (tmp_path / "b.txt").mkdir()
    (tmp_path / "b.txt" / "kept").write_bytes(b"kept")
    before = held(tmp_path)
    with pytest.raises(WholeballError, match=r"b\.txt cannot be written: Is a directory"):
        write_files(tmp_path, NEW)
    assert held(tmp_path) == before


def test_nothing_has_changed_when_a_file_stands_where_a_folder_should(tmp_path: Path) -> None:
    (tmp_path / "deep").write_bytes(b"a file")
    before = held(tmp_path)
    with pytest.raises(WholeballError, match="cannot be written: File exists"):
        write_files(tmp_path, NEW)
    assert held(tmp_path) == before


def test_a_file_in_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "x").write_bytes(b"a file")
    with pytest.raises(WholeballError, match="x cannot be written: File exists"):
        write_files(tmp_path / "x", NEW)
    with pytest.raises(WholeballError, match="is there already and not empty"):
        write_new(FolderRecord(tmp_path / "x"), NEW)
    assert held(tmp_path) == {"x": b"a file"}


def test_a_new_folder_may_be_empty_but_holds_nothing(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    write_new(FolderRecord(tmp_path / "empty"), NEW)
    with pytest.raises(WholeballError) as refused:
        write_new(FolderRecord(tmp_path / "empty"), {"a.txt": b"again"})
    assert (refused.value.code, held(tmp_path / "empty")) == ("path", NEW)
