"""Tests that results are kept until the facts change, and that all can be deleted."""

from pathlib import Path

import pytest
from django.db import OperationalError
from pytest_django import DjangoAssertNumQueries

from cases.stored import a_season, texts_of, written_by
from wholeball.kernel.faults import WholeballError
from wholeball.store.derived import derived, forget, key_of
from wholeball.store.models import Derived
from wholeball.store.record import DatabaseRecord
from wholeball.store.snapshot import Snapshot, snapshot_of

pytestmark = pytest.mark.django_db
MOST = 20_000_000
LANTERN_HILL = Path("examples/lantern-hill")


class Counting:
    """Makes a result, and counts how often."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self, seen: Snapshot) -> bytes:
        self.times += 1
        return b"%d: " % seen.season.version + seen.read("teams.csv", MOST)


def test_a_result_is_made_once_until_a_fact_changes(
    django_assert_num_queries: DjangoAssertNumQueries,
) -> None:
    record, make = written_by(a_season()), Counting()
    record.write({"teams.csv": b"team\nReds\n"})
    assert derived(record.season, "teams", make) == b"1: team\nReds\n"
    with django_assert_num_queries(1):
        assert derived(record.season, "teams", make) == b"1: team\nReds\n"
    assert make.times == 1
    record.write({"teams.csv": b"team\nBlues\n"})
    assert derived(record.season, "teams", make) == b"2: team\nBlues\n"
    assert (make.times, Derived.objects.count()) == (2, 1)


def test_what_cannot_be_kept_for_want_of_room_is_given_all_the_same(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    record, make = written_by(a_season()), Counting()
    record.write({"teams.csv": b"team\nReds\n"})

    def refused(*_: object) -> None:
        raise OperationalError from sqlstate

    sqlstate = Exception("no room, by appendix A of PostgreSQL's documentation")
    sqlstate.sqlstate = "53100"  # type: ignore[attr-defined]
    monkeypatch.setattr("wholeball.store.derived._keep", refused)
    assert derived(record.season, "teams", make) == b"1: team\nReds\n"
    assert derived(record.season, "teams", make) == b"1: team\nReds\n"
    assert (make.times, Derived.objects.count()) == (2, 0)
    sqlstate.sqlstate = "40001"  # type: ignore[attr-defined]
    with pytest.raises(OperationalError):
        derived(record.season, "teams", make)


def test_the_key_changes_with_each_kind_of_fact_and_with_nothing_else() -> None:
    record, texts = written_by(a_season()), texts_of(LANTERN_HILL)
    lines = texts.pop("games/P1.jsonl").splitlines(keepends=True)
    record.write(texts)
    keys = [key_of(record.season)]
    record.append("games/P1.jsonl", lines[0])
    keys.append(key_of(record.season))
    record.write({"rulebook.toml": texts["rulebook.toml"] + b"\n"})
    keys.append(key_of(record.season))
    record.write({"planning.toml": b"schema = 1\n"})
    keys.append(key_of(record.season))
    assert len(set(keys)) == 4
    derived(record.season, "teams", Counting())
    written_by(a_season("Spring")).write(texts)
    assert key_of(record.season) == keys[-1]


def test_every_result_can_be_deleted_and_is_made_again_the_same() -> None:
    record, names = written_by(a_season()), ("teams", "more teams")
    record.write(texts_of(LANTERN_HILL))
    before = {name: derived(record.season, name, Counting()) for name in names}
    rows = list(Derived.objects.order_by("name").values_list("name", "key", "data"))
    assert forget() == 2
    assert not Derived.objects.exists()
    assert {name: derived(record.season, name, Counting()) for name in names} == before
    assert list(Derived.objects.order_by("name").values_list("name", "key", "data")) == rows
    assert forget(a_season("Spring")) == 0
    assert forget(record.season) == 2


def test_a_result_of_facts_that_changed_while_it_was_made_is_not_kept() -> None:
    record = written_by(a_season())
    record.write({"teams.csv": b"team\nReds\n"})

    def make(seen: Snapshot) -> bytes:
        record.write({"teams.csv": b"team\nBlues\n"})
        return seen.read("teams.csv", MOST)

    assert derived(record.season, "teams", make) == b"team\nReds\n"
    assert not Derived.objects.exists()


def test_a_snapshot_reads_as_the_record_does_and_cannot_be_written() -> None:
    record = written_by(a_season())
    with pytest.raises(WholeballError, match="has no facts yet"):
        snapshot_of(record.season).refuse_missing()
    record.write(texts_of(LANTERN_HILL))
    seen = snapshot_of(record.season)
    names = ("teams.csv", "games", "games/P1.jsonl", "cards", "", "x", "README.md")
    assert [_said(seen, name) for name in names] == [_said(record, name) for name in names]
    for write in (
        lambda: seen.write({}),
        lambda: seen.append("games/P1.jsonl", b""),
        seen.held,
    ):
        with pytest.raises(ValueError, match="can only be read"):
            write()


def _said(record: Snapshot | DatabaseRecord, name: str) -> tuple[object, ...]:
    try:
        data: object = record.read(name, MOST)
    except OSError as error:
        data = (type(error), str(error))
    return record.has(name), record.names(name), data, record.called(name), record.place
