"""Tests that a season is read once for each of its versions, and that no change is missed."""

from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from threading import Barrier, Thread

import pytest
from django.db import connection, transaction
from django.test.utils import CaptureQueriesContext
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest_django import DjangoAssertNumQueries

from cases.desk_season import a_desk
from cases.stored import a_season, facts_of, texts_of, written_by
from wholeball.files.folder import read_folder
from wholeball.league.texts import LastingTexts, Made, Texts
from wholeball.season.appearances import GameSheet
from wholeball.store import snapshot
from wholeball.store.derived import derived, forget, key_of
from wholeball.store.record import DatabaseRecord
from wholeball.store.snapshot import Snapshot, snapshot_of

pytestmark = pytest.mark.django_db
TEXTS = texts_of(Path("examples/lantern-hill"))
LINES = TEXTS["games/P1.jsonl"].splitlines(keepends=True)
MOST = 20_000_000
NUMBERS = count()


class Undone(Exception):
    """Somebody gave up a write."""


@pytest.fixture(autouse=True)
def _nothing_kept() -> Iterator[None]:
    forget()
    yield
    forget()


def a_record() -> DatabaseRecord:
    record = written_by(a_season(f"Season {next(NUMBERS)}"))
    record.write({**TEXTS, "games/P1.jsonl": LINES[0]})
    return record


def plain(record: DatabaseRecord) -> dict[str, bytes]:
    """Return every text of a record, each asked for by its name."""
    names = [name for name in record.names("") if not record.names(name)]
    names += [
        f"{inside}/{name}" for inside in ("games", "cards") for name in record.names(inside)
    ]
    return {name: record.read(name, MOST) for name in names}


def test_a_version_is_read_once_and_then_takes_one_query(
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    record = a_record()
    first = read_folder(record)
    with django_assert_num_queries(1):
        assert read_folder(record) is first
    with django_assert_num_queries(1):
        assert read_folder(snapshot_of(record.season)) is first
    record.append("games/P1.jsonl", LINES[1])
    assert read_folder(record) is not first


def test_a_write_that_was_given_up_is_not_taken_for_the_next_of_its_version() -> None:
    record = a_record()
    give_up(record, TEXTS["teams.csv"] + b"Ash,Wick,,\n")
    other = TEXTS["teams.csv"] + b"Oak,Wick,,\n"
    written_by(record.season).write({"teams.csv": other})
    seen = snapshot_of(record.season)
    assert (seen.season.version, seen.texts["teams.csv"]) == (2, other)


def give_up(record: DatabaseRecord, teams: bytes) -> None:
    """Write a season, read it as it is then, and give the write up."""
    with pytest.raises(Undone), transaction.atomic():
        _read_and_give_up(record, teams)


def _read_and_give_up(record: DatabaseRecord, teams: bytes) -> None:
    now = written_by(record.season)
    now.write({"teams.csv": teams})
    assert snapshot_of(now.season).texts["teams.csv"] == teams
    raise Undone


def add_row(record: DatabaseRecord) -> None:
    record.write(
        {
            "teams.csv": record.read("teams.csv", MOST)
            + f"Team {next(NUMBERS)},Wick,,\n".encode()
        }
    )


def write_text(record: DatabaseRecord) -> None:
    record.write({"planning.toml": f"schema = 1\n# {next(NUMBERS)}\n".encode()})


def write_rulebook(record: DatabaseRecord) -> None:
    record.write({"rulebook.toml": record.read("rulebook.toml", MOST) + b"\n"})


def add_entry(record: DatabaseRecord) -> None:
    stand = record.read("games/P1.jsonl", MOST).count(b"\n")
    record.append("games/P1.jsonl", b"".join(LINES[stand : stand + 1]))


def add_player(record: DatabaseRecord) -> None:
    players = record.read("rosters.csv", MOST)
    row = f"Library Fines,,Player {next(NUMBERS)},\n"
    record.write({"rosters.csv": players + row.encode()})


def rule(record: DatabaseRecord) -> None:
    to = ("annulled", "stands")[next(NUMBERS) % 2]
    row = f"1,P1,{to},H 3.5,It was agreed\n"
    record.write({"rulings.csv": f"ruling,game,ruled,ref,why\n{row}".encode()})


def take_out(record: DatabaseRecord) -> None:
    if record.has("planning.toml"):
        record.write({}, gone=["planning.toml"])


def rename(record: DatabaseRecord) -> None:
    record.season.name = f"Season called {next(NUMBERS)}"
    record.season.save(update_fields=["name"])


def give_up_a_row(record: DatabaseRecord) -> None:
    give_up(record, record.read("teams.csv", MOST) + b"Gone,Wick,,\n")


def give_up_an_entry(record: DatabaseRecord) -> None:
    with pytest.raises(Undone), transaction.atomic():
        _add_and_give_up(record)


def _add_and_give_up(record: DatabaseRecord) -> None:
    now = written_by(record.season)
    add_entry(now)
    assert snapshot_of(now.season).texts["games/P1.jsonl"] == now.read("games/P1.jsonl", MOST)
    raise Undone


def forget_all(record: DatabaseRecord) -> None:
    forget(record.season)


DEEDS = (
    add_row,
    write_text,
    write_rulebook,
    add_entry,
    add_player,
    rule,
    take_out,
    rename,
    give_up_a_row,
    give_up_an_entry,
    forget_all,
)


@settings(deadline=None, max_examples=20)
@given(st.lists(st.sampled_from(DEEDS), min_size=1, max_size=8))
def test_after_any_deeds_what_is_kept_is_what_is_stored(
    deeds: list[Callable[[DatabaseRecord], None]],
) -> None:
    record = a_record()
    for deed in deeds:
        deed(record)
        seen = snapshot_of(record.season)
        assert dict(seen.texts) == plain(record)
        assert seen.place == record.season.name
        anew = read_folder(Texts(place=seen.place, texts=seen.texts))
        assert facts_of(read_folder(seen)) == facts_of(anew)


def test_only_entries_that_came_since_are_read_again() -> None:
    record = a_record()
    before = snapshot_of(record.season)
    record.append("games/P1.jsonl", LINES[1])
    with CaptureQueriesContext(connection) as asked:
        after = snapshot_of(record.season)
    (only,) = (one["sql"] for one in asked.captured_queries if "store_logentry" in one["sql"])
    assert f'"store_logentry"."id" > {before.logs.last}' in only
    assert after.texts["games/P1.jsonl"] == LINES[0] + LINES[1]
    assert after.logs.last > before.logs.last > 0


def test_of_a_new_entry_only_its_own_game_is_played_again(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    record, lines = written_by(desk.season), desk.texts()["games/A1.jsonl"]
    record.append("games/C1.jsonl", lines.replace(b'"A1"', b'"C1"'))
    before = {one.fixture.game: one for one in read_folder(record).sheets}
    *_, last = TEXTS["games/P1.jsonl"].splitlines(keepends=True)
    record.append("games/C1.jsonl", last.replace(b'"P1"', b'"C1"'))
    after = {one.fixture.game: one for one in read_folder(record).sheets}
    assert set(before) == {"A1", "C1"}
    assert [game for game, one in after.items() if one is not before[game]] == ["C1"]


def test_a_game_is_played_again_for_each_thing_it_goes_by(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    record, texts = written_by(desk.season), desk.texts()

    def sheet() -> GameSheet:
        return read_folder(record).sheets[0]

    found = [sheet()]
    for name, was, now in (
        ("rulebook.toml", b"caution_games = 1", b"caution_games = 2"),
        ("rosters.csv", b"", b"Ash,99,Somebody Else,\n"),
        ("timetable.csv", b"19:00", b"19:05"),
    ):
        data = texts[name].replace(was, now, 1) if was else texts[name] + now
        record.write({name: data})
        found.append(sheet())
    record.write({"teams.csv": texts["teams.csv"]})
    assert sheet() is found[-1]
    assert len(set(map(id, found))) == len(found)


def test_no_more_seasons_are_kept_than_said() -> None:
    records = [a_record() for _ in range(snapshot.MOST + 1)]
    first, *_, last = [read_folder(one) for one in records]
    assert len(snapshot._KEPT) == snapshot.MOST
    assert read_folder(records[-1]) is last
    assert read_folder(records[0]) is not first


def test_the_key_of_results_changes_where_only_the_head_does() -> None:
    record = a_record()
    before = key_of(record.season)
    record.season.head = "another"
    record.season.save(update_fields=["head"])
    assert key_of(record.season) != before


def test_what_several_ask_for_at_once_is_made_once() -> None:
    made, times, found, together = Made(), list[int](), list[object](), Barrier(4)

    def make() -> object:
        times.append(1)
        return object()

    def ask() -> None:
        together.wait()
        found.append(made.once("a thing", make))

    threads = [Thread(target=ask) for _ in range(4)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert (len(times), len(set(map(id, found)))) == (1, 1)


def test_what_is_only_tried_is_not_kept_with_texts_that_last() -> None:
    kept = LastingTexts(place="a season", texts=TEXTS)
    before = read_folder(kept)
    tried = read_folder(kept, instead={"season.toml": TEXTS["season.toml"] + b"\n# tried\n"})
    assert tried is not before
    assert read_folder(kept) is before


def test_old_results_go_when_a_new_one_comes_and_those_of_today_stay() -> None:
    record = a_record()

    def make(seen: Snapshot) -> bytes:
        return f"{seen.season.version}".encode()

    def kept() -> list[tuple[str, bytes]]:
        every = record.season.derived.order_by("name").values_list("name", "data")
        return [(name, bytes(data)) for name, data in every]

    for day in ("2026-09-14", "2026-09-15"):
        derived(record.season, "front", make, moment=day)
        derived(record.season, "table", make)
    assert kept() == [("front", b"1"), ("table", b"1")]
    record.append("games/P1.jsonl", LINES[1])
    assert derived(record.season, "results", make) == b"2"
    assert kept() == [("results", b"2")]
