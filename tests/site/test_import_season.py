"""Tests that a season goes from a folder into the database and out again without a loss."""

import csv
import io
import zipfile
from collections.abc import Mapping
from itertools import count
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases.planned_season import write_folder
from cases.stored import a_season, facts_of, texts_of, written_by
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.files.season_texts import packed
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.league.texts import Texts
from wholeball.store.models import Season, SeasonFile
from wholeball.store.models.people_rows import RosterRow
from wholeball.store.record import DatabaseRecord
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.export_season import export_archive, export_season, texts_of_season
from wholeball.usecases.import_season import (
    Imported,
    import_archive,
    import_file,
    import_season,
    try_file,
)

pytestmark = pytest.mark.django_db
LANTERN_HILL = Path("examples/lantern-hill")
TEXTS = texts_of(LANTERN_HILL)
_NUMBERS = count()


def _record() -> DatabaseRecord:
    return written_by(a_season(f"Season {next(_NUMBERS)}".replace(" ", "-")))


def _read(texts: Mapping[str, bytes]) -> SeasonFolder:
    return read_folder(Texts(place="a season", texts=texts))


@pytest.mark.parametrize(
    "folder",
    [LANTERN_HILL, *sorted(Path("examples/proof").iterdir())],
    ids=lambda one: one.name,
)
def test_an_example_comes_out_of_the_database_as_it_went_in(
    folder: Path, tmp_path: Path
) -> None:
    record, facts = _record(), read_folder(FolderRecord(folder))
    assert import_season(FolderRecord(folder), record) == Imported(season=facts, left_out=())
    assert read_folder(record) == facts
    assert read_folder(snapshot_of(record.season)) == facts
    export_season(record, FolderRecord(tmp_path / "out"))
    assert texts_of(tmp_path / "out") == texts_of(folder)


def test_a_season_with_places_rules_and_closures_comes_out_as_it_went_in(
    tmp_path: Path,
) -> None:
    folder = write_folder(tmp_path / "season")
    (folder / "notes").mkdir()
    (folder / "photo.jpeg").write_bytes(b"\xff\xd8")
    record, facts = _record(), facts_of(read_folder(FolderRecord(folder)))
    done = import_season(FolderRecord(folder), record)
    assert (facts_of(done.season), done.left_out) == (facts, ("notes", "photo.jpeg"))
    assert facts_of(read_folder(record)) == facts
    export_season(record, FolderRecord(tmp_path / "out"))
    assert facts_of(read_folder(FolderRecord(tmp_path / "out"))) == facts


@st.composite
def _written_otherwise(draw: st.DrawFn) -> dict[str, bytes]:
    """Return the season with its tables as another program or a person might write them."""
    texts = dict(TEXTS)
    for name in sorted(name for name in TEXTS if name.endswith(".csv")):
        header, *rows = csv.reader(io.StringIO(TEXTS[name].decode(), newline=""))
        order = draw(st.permutations(range(len(header))))
        out = io.StringIO()
        writer = csv.writer(
            out,
            delimiter=draw(st.sampled_from(",;")),
            lineterminator=draw(st.sampled_from(["\n", "\r\n"])),
            quoting=draw(st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL])),
        )
        for number, row in enumerate([header, *rows]):
            cells = [row[at] for at in order]
            if number and draw(st.integers(0, 5)) == 0:
                writer.writerow([""] * len(header))
            writer.writerow([f" {cell} " for cell in cells] if draw(st.booleans()) else cells)
        mark = draw(st.sampled_from(["", "\ufeff"]))
        texts[name] = f"{mark}{out.getvalue()}".encode()
    return texts


_WORDS = st.text(
    st.characters(exclude_categories=("C", "Zl", "Zp"), include_characters="\n"), max_size=60
).map(lambda words: f"x{words}")


@settings(max_examples=40, deadline=None)
@given(_written_otherwise())
def test_however_its_tables_are_written_the_facts_come_out_as_they_went_in(
    texts: dict[str, bytes],
) -> None:
    facts, record = _read(texts), _record()
    import_season(Texts(place="a season", texts=texts), record)
    assert read_folder(record) == facts
    out = texts_of_season(record)
    assert _read(out) == facts
    again = _record()
    import_season(Texts(place="what came out", texts=out), again)
    assert texts_of_season(again) == out


@settings(max_examples=60, deadline=None)
@given(words=_WORDS, start=st.sampled_from(["", "'=", "'-", "''+", "'", '"', ";", "\u0130"]))
def test_whatever_words_stand_in_a_cell_come_out_as_they_went_in(
    words: str, start: str
) -> None:
    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerow([f"{start}{words}"])
    teams = b"team,colours\nReds," + out.getvalue().encode() + b"Blues,white\n"
    texts = {**TEXTS, "teams.csv": teams, "rosters.csv": b"team,name\n"}
    texts |= {"results.csv": b"game,round,home,away\n"}
    for name in ("timetable.csv", "games/P1.jsonl", "cards/P1.toml"):
        texts.pop(name)
    try:
        facts = _read(texts)
    except InputFaults:
        facts = None
    record = _record()
    if facts is None:
        with pytest.raises(InputFaults):
            import_season(Texts(place="a season", texts=texts), record)
        assert record.names("") == ()
    else:
        import_season(Texts(place="a season", texts=texts), record)
        assert read_folder(record) == facts


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_after_any_writes_the_database_says_what_a_folder_in_memory_says(
    data: st.DataObject,
) -> None:
    texts, record = dict(TEXTS), _record()
    import_season(Texts(place="a season", texts=texts), record)
    for _ in range(data.draw(st.integers(1, 4))):
        name = data.draw(st.sampled_from(["results.csv", "rosters.csv", "timetable.csv"]))
        head, *rows = texts[name].splitlines(keepends=True)
        kept = [row for row in rows if data.draw(st.integers(0, 3))]
        texts[name] = b"".join([head, *data.draw(st.permutations(kept))])
        record.write({name: texts[name]})
        assert record.read(name, 20_000_000) == texts[name]
    assert texts_of_season(record) == texts


def test_what_is_wrong_anywhere_is_all_told_and_nothing_is_written() -> None:
    texts = {**TEXTS, "teams.csv": b"team,coach\nReds,Ana\n", "season.toml": b"schema = 9\n"}
    record = _record()
    with pytest.raises(InputFaults) as refused:
        import_season(Texts(place="a season", texts=texts), record)
    assert {fault.place.file for fault in refused.value.faults} >= {"teams.csv", "season.toml"}
    assert (record.names(""), Season.objects.get(pk=record.season.pk).version) == ((), 0)


def test_a_season_that_has_facts_is_not_imported_over() -> None:
    record = _record()
    import_season(FolderRecord(LANTERN_HILL), record)
    with pytest.raises(WholeballError, match="not empty"):
        import_season(FolderRecord(LANTERN_HILL), record)
    assert record.season.version == 1


def test_an_archive_is_the_same_season_with_or_without_a_folder_round_it() -> None:
    bare = packed(TEXTS)
    inside = packed({f"lantern hill/{name}": text for name, text in TEXTS.items()})
    with_more = packed(
        {**{f"s/{name}": text for name, text in TEXTS.items()}, "__MACOSX/s/._x.csv": b"\0"}
    )
    for data in (bare, inside, with_more):
        record = _record()
        assert import_archive(data, record, file="season.zip") == Imported(
            season=_read(TEXTS), left_out=()
        )
        assert export_archive(record) == bare


def _with_size(data: bytes, *, size: int) -> bytes:
    """Return an archive whose directory states another size of its one file."""
    at = data.index(b"PK\x01\x02") + 24
    return data[:at] + size.to_bytes(4, "little") + data[at + 4 :]


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"no archive at all", "syntax"),
        (b"\0" * 10_000_001, "limits"),
        (packed({"teams.csv": b"0" * 1_000_000}), "zip_bomb"),
        (_with_size(packed({"teams.csv": b"team\n"}), size=50_000_001), "zip_bomb"),
        (packed({f"games/{n}.jsonl": b"" for n in range(3_001)}), "limits"),
        (packed({"../teams.csv": b"team\n"}), "path"),
        (packed({"C:/teams.csv": b"team\n"}), "path"),
        (packed({"teams.csv": b"team\nReds\n"})[:-40], "syntax"),
    ],
)
def test_an_archive_is_bounded_before_anything_of_it_is_unpacked(
    data: bytes, code: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(zipfile.ZipFile, "read", lambda *_: pytest.fail("it was unpacked"))
    record = _record()
    with pytest.raises(InputFaults) as refused:
        import_archive(data, record, file="season.zip")
    assert refused.value.code == code
    assert record.names("") == ()


def test_a_file_is_tried_without_writing_and_then_put_in_place_of_the_old_one() -> None:
    record = _record()
    import_season(FolderRecord(LANTERN_HILL), record)
    rows = TEXTS["rosters.csv"].splitlines(keepends=True)
    more = b"".join(rows[:-1])
    tried = try_file(record, "rosters.csv", more)
    assert record.read("rosters.csv", 20_000_000) == TEXTS["rosters.csv"]
    assert import_file(record, "rosters.csv", more) == tried
    assert read_folder(record) == tried
    before = RosterRow.objects.count()
    with pytest.raises(InputFaults):
        import_file(record, "rosters.csv", more + b"Nobody,1,Ana\n")
    with pytest.raises(InputFaults, match="20,000,001 bytes"):
        import_file(record, "rosters.csv", b"\n" * 20_000_001)
    assert RosterRow.objects.count() == before


def test_private_files_stay_private_in_the_database_and_on_the_disk(tmp_path: Path) -> None:
    texts = {**TEXTS, "people.csv": b"person,gender\n"}
    record = _record()
    import_season(Texts(place="a season", texts=texts), record)
    private = SeasonFile.objects.filter(season=record.season, is_private=True)
    assert list(private.values_list("name", flat=True)) == ["people.csv"]
    export_season(record, FolderRecord(tmp_path / "out"))
    modes = {
        path.name: path.stat().st_mode & 0o077 for path in (tmp_path / "out").glob("*.csv")
    }
    assert modes["people.csv"] == 0
    with pytest.raises(WholeballError, match="not empty"):
        export_season(record, FolderRecord(tmp_path / "out"))
