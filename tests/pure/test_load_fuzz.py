"""Whatever a file holds, a rulebook is loaded from it or every fault is named; nothing else."""

from importlib.resources import files
from string import printable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.text import unreadable
from wholeball.rulebook.book import Rulebook, values
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load

PRESETS = [
    entry.read_text(encoding="utf-8")
    for entry in files("wholeball.rulebook.presets").iterdir()
    if entry.name.endswith(".toml")
]
CODES = {
    "bidi_control",
    "contradiction",
    "control_char",
    "duplicate",
    "duplicate_key",
    "empty",
    "encoding",
    "limits",
    "missing",
    "range",
    "syntax",
    "type",
    "unknown_key",
    "unknown_value",
    "unreachable",
    "version",
}
KEYS = [
    f"{path}.{key}" for path, article in edition(NEWEST).articles() for key in values(article)
]
TABLES = [path for path, _ in edition(NEWEST).articles()]
VALUES = [
    "0",
    "-1",
    "61",
    "22.5",
    "1e3",
    "nan",
    "inf",
    "-inf",
    "9" * 40,
    "true",
    "false",
    "12:00:00",
    "2026-09-15",
    "2026-09-15T12:00:00Z",
    '""',
    '"x"',
    '"no_limit"',
    '"10 yd"',
    '"0 m (0 yd)"',
    '"-1 yd"',
    '"a\\u202eb"',
    "[]",
    "[[]]",
    "[1, 'a', {}]",
    "{}",
    "{ lead = 1, minutes_left = 2 }",
    '[{ among_level = ["h2h_points"] }]',
    '[{ among_level = [{ among_level = ["h2h_points"] }] }]',
    '[{ conduct = 1 }, "points", "points"]',
]


def loaded_or_refused(data: bytes) -> Rulebook | None:
    """Return the rulebook, or None where it is refused as every refusal should be."""
    try:
        loaded = load(data, file="house.toml")
    except InputFaults as refused:
        for fault in refused.faults:
            is_as_it_should_be(fault, rows=data.count(b"\n") + 1)
        return None
    assert len(loaded.rulebook.digest) == 64
    return loaded.rulebook


def is_as_it_should_be(fault: Fault, *, rows: int) -> None:
    assert fault.code in CODES
    assert fault.level == "fault"
    assert fault.place.line is None or 1 <= fault.place.line <= rows
    assert fault.says.endswith(".")
    assert fault.cure.endswith(".") or fault.cure.endswith("?")
    assert unreadable(str(fault)) is None


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=40))
def test_any_bytes_are_loaded_or_refused(data: bytes) -> None:
    loaded_or_refused(data)


@settings(max_examples=120, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(KEYS), st.sampled_from(VALUES)), max_size=6))
def test_any_values_in_any_keys_are_loaded_or_refused(pairs: list[tuple[str, str]]) -> None:
    loaded_or_refused("".join(f"{key} = {value}\n" for key, value in pairs).encode())


@settings(max_examples=120, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from([*TABLES, "also", "head", "schema", "base", "name", "source"]),
        st.sampled_from(VALUES),
        max_size=4,
    )
)
def test_any_values_in_place_of_tables_are_loaded_or_refused(tables: dict[str, str]) -> None:
    loaded_or_refused("".join(f"{key} = {value}\n" for key, value in tables.items()).encode())


@settings(max_examples=120, deadline=None)
@given(
    st.sampled_from(PRESETS),
    st.floats(0, 1),
    st.integers(0, 12),
    st.text(printable, max_size=6),
)
def test_a_preset_with_a_stretch_typed_over_is_loaded_or_refused(
    text: str, where: float, cut: int, typed: str
) -> None:
    at = int(where * len(text))
    loaded_or_refused((text[:at] + typed + text[at + cut :]).encode())


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(PRESETS), st.data())
def test_a_preset_with_lines_left_out_or_doubled_is_loaded_or_refused(
    text: str, data: st.DataObject
) -> None:
    rows = text.split("\n")
    at = data.draw(st.integers(0, len(rows) - 1))
    times = data.draw(st.sampled_from([0, 2]))
    loaded_or_refused("\n".join(rows[:at] + [rows[at]] * times + rows[at + 1 :]).encode())


@pytest.mark.parametrize("text", PRESETS)
def test_a_preset_cut_off_after_any_table_is_loaded_or_refused(text: str) -> None:
    pieces = text.split("\n[")
    books = [loaded_or_refused("\n[".join(pieces[:n]).encode()) for n in range(1, len(pieces))]
    assert any(books)
