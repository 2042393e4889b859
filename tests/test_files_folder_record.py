"""A folder keeps a season's texts under their names, and says in words where it cannot."""

from pathlib import Path

import pytest

from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError


def test_what_is_written_has_its_name_and_is_read_up_to_a_byte_over_the_most(
    tmp_path: Path,
) -> None:
    record = FolderRecord(tmp_path / "season")
    record.write({"teams.csv": b"team\n", "games/1.jsonl": b"{}\n"}, private={"teams.csv"})
    assert (record.has("teams.csv"), record.has("games"), record.has("x")) == (
        True,
        True,
        False,
    )
    assert (record.names(""), record.names("games")) == (("games", "teams.csv"), ("1.jsonl",))
    assert (record.read("teams.csv", 3), record.read("teams.csv", 4)) == (b"team", b"team\n")
    assert (tmp_path / "season" / "teams.csv").stat().st_mode & 0o777 == 0o600
    record.write({}, gone=["games/1.jsonl"])
    assert (record.has("games/1.jsonl"), record.names("games")) == (False, ())


def test_names_and_bytes_of_what_is_not_there(tmp_path: Path) -> None:
    record = FolderRecord(tmp_path / "season")
    assert (record.names(""), record.names("games"), record.has("games")) == ((), (), False)
    with pytest.raises(FileNotFoundError):
        record.read("teams.csv", 10)
    (tmp_path / "season").mkdir()
    (tmp_path / "season" / "games").write_bytes(b"")
    with pytest.raises(NotADirectoryError):
        record.names("games")


@pytest.mark.parametrize(
    ("given", "place", "called"),
    [("", ".", "teams.csv"), ("a/b/", "a/b", "a/b/teams.csv"), ("/", "/", "/teams.csv")],
)
def test_a_folder_is_called_by_the_path_that_was_given(
    given: str, place: str, called: str
) -> None:
    record = FolderRecord(Path(given))
    assert (record.place, record.called("teams.csv")) == (place, called)


def test_what_is_no_folder_is_refused_with_the_cure(tmp_path: Path) -> None:
    FolderRecord(tmp_path).refuse_missing()
    file, missing = tmp_path / "teams.csv", tmp_path / "x"
    file.write_text("team\n")
    assert [_refusal(file), _refusal(missing)] == [
        (
            f"{file} is a file; a season folder is wanted.",
            "Name the folder that holds the season's files.",
        ),
        (f"{missing} is no folder.", f"Make one with: wholeball new {missing}"),
    ]
    (tmp_path / "season.toml").write_text("")
    assert _refusal(file)[1] == f"Name its folder: {tmp_path}"


def test_lines_come_behind_those_that_stand_and_a_full_disk_leaves_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = FolderRecord(tmp_path)
    record.append("games/1.jsonl", b"one\n")
    record.append("games/1.jsonl", b"two\n")
    assert record.read("games/1.jsonl", 100) == b"one\ntwo\n"

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(WholeballError) as refused:
        record.append("games/1.jsonl", b"three\n")
    assert (refused.value.says, refused.value.fix, refused.value.code) == (
        f"{tmp_path / 'games' / '1.jsonl'} cannot be written: No space left on device.",
        "Nothing was changed. Check the disk and the folder's permissions.",
        "storage",
    )
    assert record.read("games/1.jsonl", 100) == b"one\ntwo\n"
    assert record.names("games") == ("1.jsonl",)


def test_nothing_is_added_to_a_log_in_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(WholeballError, match="cannot be written: No such file") as refused:
        FolderRecord(tmp_path / "x").append("games/1.jsonl", b"one\n")
    assert (refused.value.code, list(tmp_path.iterdir())) == ("storage", [])


def _refusal(path: Path) -> tuple[str, str]:
    with pytest.raises(WholeballError) as refused:
        FolderRecord(path).refuse_missing()
    assert refused.value.code == "path"
    return refused.value.says, refused.value.fix
