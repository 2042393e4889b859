"""A game's log in a season folder grows at its end, all or nothing, and is never rewritten."""

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from cases.sealed import GAME, sealed, six
from wholeball.files import game_log
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append, log_name, read_game
from wholeball.game.envelope import Entry, Finding, stored_line
from wholeball.game.happenings import Noted
from wholeball.kernel.faults import InputFaults, WholeballError

LOG = six()


def test_what_was_appended_is_read_and_the_first_bytes_never_change(tmp_path: Path) -> None:
    append(FolderRecord(tmp_path), GAME, LOG[:2])
    first = (tmp_path / "games" / "g-1.jsonl").read_bytes()
    append(FolderRecord(tmp_path), GAME, LOG[2:])
    assert (tmp_path / "games" / "g-1.jsonl").read_bytes().startswith(first)
    log = read_game(FolderRecord(tmp_path), GAME)
    assert (log.entries, log.report.standing, log.findings) == (tuple(LOG), tuple(LOG), ())
    assert [path.name for path in (tmp_path / "games").iterdir()] == ["g-1.jsonl"]


def test_a_game_of_which_nothing_was_recorded_is_empty(tmp_path: Path) -> None:
    assert read_game(FolderRecord(tmp_path), GAME).entries == ()


def test_a_log_that_was_edited_is_read_with_what_was_found(tmp_path: Path) -> None:
    append(FolderRecord(tmp_path), GAME, LOG)
    path = tmp_path / "games" / "g-1.jsonl"
    path.write_bytes(path.read_bytes().replace(b'"number":9', b'"number":8'))
    log = read_game(FolderRecord(tmp_path), GAME)
    assert log.findings == (Finding("chain", "phone", 2),)
    assert [one.said.seq for one in log.entries] == [1, 2, 3, 4, 5, 6]
    assert log.report.standing == (LOG[0],)


def test_a_signature_is_kept_as_it_was_given(tmp_path: Path) -> None:
    signed = LOG[0]._replace(sig="ed25519:AAECAwQ=")
    append(FolderRecord(tmp_path), GAME, [signed])
    assert read_game(FolderRecord(tmp_path), GAME).entries == (signed,)


@pytest.mark.parametrize("game", ["", "../g", "a/b", ".g", "g\n", "g" * 81])
def test_a_game_that_cannot_name_a_file_is_refused(tmp_path: Path, game: str) -> None:
    with pytest.raises(WholeballError, match="cannot name a file") as refused:
        read_game(FolderRecord(tmp_path), game)
    assert refused.value.code == "path"


def test_a_name_of_eighty_letters_is_a_file(tmp_path: Path) -> None:
    assert log_name("g" * 80) == f"games/{'g' * 80}.jsonl"
    assert read_game(FolderRecord(tmp_path), "g" * 80).entries == ()


def test_an_entry_of_another_game_is_not_appended(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="only entries of g-2"):
        append(FolderRecord(tmp_path), "g-2", LOG)
    assert list(tmp_path.iterdir()) == []


def test_a_log_that_was_cut_is_neither_read_nor_added_to(tmp_path: Path) -> None:
    append(FolderRecord(tmp_path), GAME, LOG)
    path = tmp_path / "games" / "g-1.jsonl"
    cut = path.read_bytes()[:-20]
    path.write_bytes(cut)
    with pytest.raises(InputFaults) as unread:
        read_game(FolderRecord(tmp_path), GAME)
    assert [(one.code, one.place.file, one.place.line) for one in unread.value.faults] == [
        ("torn", "games/g-1.jsonl", 6)
    ]
    with pytest.raises(WholeballError) as refused:
        append(FolderRecord(tmp_path), GAME, [sealed(Noted(text=""), LOG)])
    assert (refused.value.code, path.read_bytes()) == ("torn", cut)


def test_a_disk_that_refuses_leaves_the_log_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    append(FolderRecord(tmp_path), GAME, LOG[:2])

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(WholeballError, match="No space left on device") as refused:
        append(FolderRecord(tmp_path), GAME, LOG[2:])
    assert refused.value.code == "storage"
    assert read_game(FolderRecord(tmp_path), GAME).entries == tuple(LOG[:2])
    assert [path.name for path in (tmp_path / "games").iterdir()] == ["g-1.jsonl"]


def test_a_log_may_have_its_most_bytes_and_no_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    size = sum(len(stored_line(one)) + 1 for one in LOG)
    monkeypatch.setattr(game_log, "MOST_BYTES", size)
    append(FolderRecord(tmp_path), GAME, LOG)
    with pytest.raises(WholeballError) as refused:
        append(FolderRecord(tmp_path), GAME, [sealed(Noted(text=""), LOG)])
    assert (refused.value.code, read_game(FolderRecord(tmp_path), GAME).entries) == (
        "limits",
        tuple(LOG),
    )


def test_writers_at_the_same_time_lose_nothing(tmp_path: Path) -> None:
    with ThreadPoolExecutor(4) as pool:
        list(pool.map(lambda number: _write(tmp_path, f"device{number}"), range(4)))
    log = read_game(FolderRecord(tmp_path), GAME)
    assert (len(log.entries), log.findings) == (40, ())


def _write(folder: Path, dev: str) -> None:
    log: list[Entry] = []
    for number in range(10):
        log.append(sealed(Noted(text=dev), log, dev=dev, number=number + 100 * int(dev[-1])))
        append(FolderRecord(folder), GAME, log[-1:])


def test_an_entry_that_follows_an_older_head_than_the_one_stored_is_refused(
    tmp_path: Path,
) -> None:
    append(FolderRecord(tmp_path), GAME, LOG[:2])
    append(FolderRecord(tmp_path), GAME, LOG[2:3])
    before = (tmp_path / "games" / "g-1.jsonl").read_bytes()
    with pytest.raises(WholeballError) as refused:
        append(FolderRecord(tmp_path), GAME, [sealed(Noted(text="late"), LOG[:2])])
    assert (refused.value.code, refused.value.says, refused.value.fix) == (
        "moved",
        "games/g-1.jsonl was written by somebody else meanwhile: entry 3 of phone is there.",
        "Nothing was written. Enter it again.",
    )
    assert (tmp_path / "games" / "g-1.jsonl").read_bytes() == before


def test_another_device_may_write_whatever_the_first_has_written_meanwhile(
    tmp_path: Path,
) -> None:
    append(FolderRecord(tmp_path), GAME, LOG)
    note = sealed(Noted(text="late"), LOG[:2], dev="tablet", number=99)
    append(FolderRecord(tmp_path), GAME, [note])
    assert read_game(FolderRecord(tmp_path), GAME).entries == (*LOG, note)
