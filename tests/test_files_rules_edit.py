"""Rules of planning.toml are added, changed and taken out, and all else stays as it stands."""

import tomllib
from codecs import BOM_UTF8
from collections.abc import Callable
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.files.rules_edit import with_rule, with_strength, without_rule
from wholeball.kernel.faults import WholeballError

TEXT = b"""schema = 1  # of the file
# musts

[[rules]]  # the first
rule = "one a night"
kind = "games_a_night"
strength = "must"   # all agree
# none of ours plays twice
most = 1

# wishes
[[rules]]
rule = "late"
kind = "even_starts"
strength = "wish"
cost = 5 # unfair
which = "late"

[pools.A]
meetings = 2

[[rules]]
rule = "our own"
kind = "games_on"
strength = "must"
most = 0
nights = [
    2027-01-18,  # a holiday
    2027-02-15,
]

# the end
"""
RULE = {"rule": 'a "new" one', "kind": "fixed", "strength": "wish", "cost": 3, "name": "A1"}
LISTED = b'schema = 1\nrules = [{ rule = "a", strength = "must" }, { rule = "b", strength = "wish", cost = 2 }]  # two\n'


def test_a_rule_is_put_at_the_end_and_nothing_else_is_touched() -> None:
    told = with_rule(TEXT, {**RULE, "night": date(2027, 1, 18), "names": ["A1", "A2"]})
    assert told == TEXT + (
        b'\n[[rules]]\nrule = "a \\"new\\" one"\nkind = "fixed"\nstrength = "wish"\ncost = 3\n'
        b'name = "A1"\nnight = 2027-01-18\nnames = ["A1", "A2"]\n'
    )
    assert with_rule(TEXT[:-1], RULE).startswith(TEXT)


def test_where_there_is_no_file_one_begins() -> None:
    assert with_rule(b"", {"rule": "a"}) == (
        b'schema = 1\nmeetings = 1\n\n[[rules]]\nrule = "a"\n'
    )


@pytest.mark.parametrize(
    ("index", "gone"),
    [
        (0, TEXT[TEXT.index(b"[[rules]]  # the") : TEXT.index(b"# wishes")]),
        (1, TEXT[TEXT.index(b'[[rules]]\nrule = "late"') : TEXT.index(b"\n[pools.A]")]),
        (2, TEXT[TEXT.index(b'[[rules]]\nrule = "our') : TEXT.index(b"# the end")]),
    ],
)
def test_a_rule_goes_with_its_own_lines_and_no_comment_beside_it(
    index: int, gone: bytes
) -> None:
    assert without_rule(TEXT, index) == TEXT.replace(gone, b"")


def test_a_strength_is_changed_where_it_stands_and_a_cost_comes_and_goes() -> None:
    wish = with_strength(TEXT, 0, "wish", 10)
    assert wish == TEXT.replace(b'"must"   # all', b'"wish"   # all').replace(
        b"most = 1\n", b"most = 1\ncost = 10\n"
    )
    assert with_strength(wish, 0, "must", None) == TEXT
    assert with_strength(TEXT, 1, "wish", 30) == TEXT.replace(b"cost = 5 #", b"cost = 30 #")
    assert with_strength(TEXT, 1, "must", None) == TEXT.replace(
        b'strength = "wish"\ncost = 5 # unfair\n', b'strength = "must"\n'
    )
    assert with_strength(TEXT, 2, "wish", 1) == TEXT.replace(
        b'"our own"\nkind = "games_on"\nstrength = "must"',
        b'"our own"\nkind = "games_on"\nstrength = "wish"',
    ).replace(b"    2027-02-15,\n]\n", b"    2027-02-15,\n]\ncost = 1\n")


def test_lines_that_end_as_on_windows_go_on_doing_so() -> None:
    text = TEXT.replace(b"\n", b"\r\n")
    assert with_rule(text, {"rule": "a"}) == text + b'\r\n[[rules]]\r\nrule = "a"\r\n'
    assert without_rule(text, 1) == without_rule(TEXT, 1).replace(b"\n", b"\r\n")
    assert with_strength(text, 1, "wish", 30) == text.replace(b"cost = 5 #", b"cost = 30 #")


def test_the_mark_with_which_some_editors_begin_a_file_stays() -> None:
    text = BOM_UTF8 + TEXT
    assert with_rule(text, {"rule": "a"}) == BOM_UTF8 + with_rule(TEXT, {"rule": "a"})
    assert without_rule(text, 0) == BOM_UTF8 + without_rule(TEXT, 0)
    assert with_strength(text, 1, "must", None) == (
        BOM_UTF8 + with_strength(TEXT, 1, "must", None)
    )


def test_rules_in_one_list_are_changed_there() -> None:
    assert without_rule(LISTED, 0) == LISTED.replace(
        b'{ rule = "a", strength = "must" }, ', b""
    )
    assert with_strength(LISTED, 1, "wish", 30) == LISTED.replace(b"cost = 2", b"cost = 30")
    must = tomllib.loads(with_strength(LISTED, 1, "must", None).decode())
    assert must["rules"][1] == {"rule": "b", "strength": "must"}
    assert with_rule(b"rules = []\n", {"rule": "c"}) == b'rules = [{rule = "c"}]\n'
    added = with_rule(LISTED, {"rule": "c"})
    assert tomllib.loads(added.decode())["rules"][2] == {"rule": "c"}
    assert added.endswith(b"]  # two\n")


def test_the_only_rule_can_go_and_another_come() -> None:
    only = b'schema = 1\n\n[[rules]]\nrule = "a"\n# end\n'
    assert without_rule(only, 0) == b"schema = 1\n\n# end\n"
    assert with_rule(without_rule(only, 0), {"rule": "b"}) == (
        b'schema = 1\n\n# end\n\n[[rules]]\nrule = "b"\n'
    )


@pytest.mark.parametrize(
    "edit",
    [
        lambda: with_rule(b"rules = 1\n", RULE),
        lambda: with_rule(b"[", RULE),
        lambda: without_rule(TEXT, 3),
        lambda: with_strength(b"schema = 1\n", 0, "must", None),
    ],
)
def test_a_file_that_does_not_let_itself_be_changed_is_refused(
    edit: Callable[[], bytes],
) -> None:
    with pytest.raises(WholeballError) as refused:
        edit()
    assert (
        refused.value.says == "The rules cannot be changed without the rest in planning.toml."
    )


@given(
    st.lists(st.sampled_from(["# one\n", "\n", "# [[rules]]\n", '[[rules]]\nrule = "x"\n\n'])),
    st.sampled_from(["", "[pools.B]\nmeetings = 1\n# c\n"]),
    st.data(),
)
def test_whatever_stands_round_a_rule_only_the_rule_changes(
    parts: list[str], tail: str, data: st.DataObject
) -> None:
    """Comments are counted, and the values are those that the standard library reads."""
    text = "schema = 1\n" + "".join(parts) + tail
    said: dict[str, Any] = {"rules": [], **tomllib.loads(text)}
    many = len(said["rules"])
    added = with_rule(text.encode(), {"rule": "new"}).decode()
    assert added.startswith(text)
    assert tomllib.loads(added)["rules"] == [*said["rules"], {"rule": "new"}]
    if many:
        index = data.draw(st.integers(0, many - 1))
        fewer = without_rule(text.encode(), index).decode()
        assert len(tomllib.loads(fewer).get("rules", [])) == many - 1
        assert fewer.count("#") == text.count("#")
        wished = with_strength(text.encode(), index, "wish", 3).decode()
        assert len(wished.splitlines()) == len(text.splitlines()) + 2
        assert with_strength(wished.encode(), index, "must", None).decode().count("cost") == 0
