"""Bad and odd rulebooks get exactly the outcome and the code that the check data names.

Rows of games are in test_bad_events; those of rosters, schedules, pages and machines wait for
their rooms.
"""

from typing import NamedTuple

import pytest

from external.cases import Case, by_id, read
from wholeball.kernel.faults import InputFaults
from wholeball.kernel.identity import GameId
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load
from wholeball.rulebook.shelf import shelf

ROWS: list[Case] = [row for row in read("bad_inputs.jsonl") if row["area"] == "rulebook"]
RECIPES = {
    "5,000 nested brackets": b"deep = " + b"[" * 5_000 + b"]" * 5_000,
    "50 MB file": b"# " + b"x" * 50_000_000,
    "empty file": b"",
}


class Outcome(NamedTuple):
    outcome: str
    code: str


def test_the_file_holds_rows_about_rulebooks() -> None:
    assert ROWS


@pytest.mark.parametrize("row", by_id(ROWS))
def test_a_rulebook_gets_the_outcome_the_row_names(row: Case) -> None:
    expected = Outcome(row["expected"]["outcome"], row["expected"]["code"])
    if row["input"]["kind"] == "change":
        assert _outcome_of_a_change() == expected
    else:
        assert _outcome_of_loading(_bytes(row)) == expected


def _bytes(row: Case) -> bytes:
    given = row["input"]
    if "hex" in given:
        return bytes.fromhex(given["hex"])
    if "make" in given:
        if given["make"] not in RECIPES:
            pytest.fail(f"{row['id']}: no recipe for {given['make']!r}; write one")
        return RECIPES[given["make"]]
    return str(given["text"]).encode()


def _outcome_of_loading(data: bytes) -> Outcome:
    try:
        loaded = load(data, file="rulebook.toml")
    except InputFaults as refused:
        (code,) = {fault.code for fault in refused.faults}
        return Outcome("reject", code)
    doubts = {remark.code for remark in loaded.remarks if remark.level == "doubt"}
    if doubts:
        (code,) = doubts
        return Outcome("warn", code)
    return Outcome("accept", "ok")


def _outcome_of_a_change() -> Outcome:
    """A coordinator changes the rulebook while three games are in play."""
    first = shelf(edition(NEWEST))
    games = [GameId(name) for name in ("game 7", "game 8", "game 9")]
    for game in games:
        first = first.start(game)
    new = load(
        b'base = "laws-2025-26"\n[overtime]\nperiods = 1\nminutes = 4\n', file="new.toml"
    )
    change = first.change(new.rulebook)
    assert [change.shelf.of(game).digest for game in games] == [first.current] * 3
    assert change.shelf.of(GameId("game 10")).digest == new.rulebook.digest
    return Outcome("accept", change.code)
