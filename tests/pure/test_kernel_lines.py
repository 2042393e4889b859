"""The line of every key of a TOML text, held to a writer that knows where it put each."""

import tomllib
from dataclasses import dataclass, field
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.kernel.lines import Loc, lines
from wholeball.kernel.refusals import Source


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a = 1\n\n# b = 2\nc = 3", {("a",): 1, ("c",): 4}),
        ("[a.b]\nc = 1", {("a",): 1, ("a", "b"): 1, ("a", "b", "c"): 2}),
        ("[a.b]\nc = 1\n[a]", {("a",): 3, ("a", "b"): 1, ("a", "b", "c"): 2}),
        ("\na.b.c = 1", {("a",): 2, ("a", "b"): 2, ("a", "b", "c"): 2}),
        ("a = [\n1,\n\n2 ]", {("a",): 1, ("a", 0): 2, ("a", 1): 4}),
        ("a = { b = 1, c = [2] }", {("a",): 1, ("a", "b"): 1, ("a", "c"): 1, ("a", "c", 0): 1}),
        ("[[a]]\nb = 1\n[[a]]", {("a",): 1, ("a", 0): 1, ("a", 0, "b"): 2, ("a", 1): 3}),
        (
            "[[a]]\n[[a.b]]\n[[a.b]]\nc = 1",
            {
                ("a",): 1,
                ("a", 0): 1,
                ("a", 0, "b"): 2,
                ("a", 0, "b", 0): 2,
                ("a", 0, "b", 1): 3,
                ("a", 0, "b", 1, "c"): 4,
            },
        ),
        ('"a b" = 1\n\'c"\' = 2', {("a b",): 1, ('c"',): 2}),
        ('"g\\u0061me" = 1\n"x.\\"y" = 2', {("game",): 1, ('x."y',): 2}),
        ("a = '''\nb = 1\n'''\nc = 2", {("a",): 1, ("c",): 4}),
        ('a = """\n\\""" b = 1\n""" # """\nc = 2', {("a",): 1, ("c",): 4}),
        ('a = "x # y = [{"\nb = 1', {("a",): 1, ("b",): 2}),
        ("a = 12:00:00\nb = 2026-09-15\nc = 1.5e3", {("a",): 1, ("b",): 2, ("c",): 3}),
    ],
)
def test_each_key_table_and_item_has_its_line(text: str, found: dict[Loc, int]) -> None:
    tomllib.loads(text)
    assert lines(text) == found


def test_a_key_that_a_file_lacks_stands_where_its_table_does() -> None:
    source = Source("r.toml", lines("[goalkeeper.hold]\nseconds = 1\n[game]\n"))
    assert source.place(("goalkeeper", "hold", "then")).line == 1
    assert source.place(("goalkeeper", "at_feet")).line == 1
    assert source.place(("game", "minutes")).line == 3
    assert source.place(("mercy",)).line is None


@dataclass
class Writer:
    """Writes nested values as TOML and notes the line of each key, slowly and plainly."""

    rows: list[str] = field(default_factory=list)
    at: dict[Loc, int] = field(default_factory=dict)

    def table(self, loc: Loc, values: dict[str, Any], header: str) -> None:
        plain = {k: v for k, v in values.items() if not is_table(v) and not is_tables(v)}
        for name, value in plain.items():
            self.note((*loc, name), len(self.rows) + 1)
            text = self.inline((*loc, name), value, len(self.rows) + 1)
            self.rows += f"{quoted(name)} = {text}".split("\n")
        for name, value in values.items():
            path = f"{header}.{quoted(name)}" if header else quoted(name)
            if is_table(value):
                self.head((*loc, name), f"[{path}]")
                self.table((*loc, name), value, path)
            elif is_tables(value):
                self.note((*loc, name), len(self.rows) + 2)
                for index, item in enumerate(value):
                    self.head((*loc, name, index), f"[[ {path} ]] # [no]")
                    self.table((*loc, name, index), item, path)

    def head(self, loc: Loc, text: str) -> None:
        self.rows += ["", text]
        self.note(loc, len(self.rows))

    def inline(self, loc: Loc, value: Any, line: int) -> str:
        if isinstance(value, list):
            text = "["
            for index, item in enumerate(value):
                text += "\n  # [a comment] = {\n  "
                here = line + text.count("\n")
                self.note((*loc, index), here)
                text += self.inline((*loc, index), item, here) + ","
            return text + "]"
        if isinstance(value, dict):
            return self.inline_table(loc, value, line)
        return written(value)

    def inline_table(self, loc: Loc, value: dict[str, Any], line: int) -> str:
        text = "{"
        for index, (name, item) in enumerate(value.items()):
            here = line + text.count("\n")
            self.note((*loc, name), here)
            text += ", " if index else " "
            text += f"{quoted(name)} = {self.inline((*loc, name), item, here)}"
        return text + " }"

    def note(self, loc: Loc, line: int) -> None:
        self.at[loc] = line


def is_table(value: object) -> bool:
    return isinstance(value, dict) and value.get("as") != "inline"


def is_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(map(is_table, value))


def quoted(name: str) -> str:
    return name if name.isalnum() and name.isascii() else written(name)


def written(value: object) -> str:
    if isinstance(value, str) and "\n" in value:
        return '"""\n' + value.replace("\\", "\\\\").replace('"', '\\"') + '"""'
    if isinstance(value, str):
        return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'
    return str(value).lower()


NAMES = st.sampled_from(
    ["a", "b", "c1", "d e", 'f"g', "h.i", "j'k", "é", "[l]", "m=n", "#o", ""]
)
TEXTS = st.text(st.sampled_from(list("ab \n\"'\\#=[]{},.é😀")), max_size=12)
SCALARS = st.one_of(st.integers(-99, 99), st.booleans(), TEXTS)


def inline_tables(values: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.dictionaries(NAMES, values, max_size=3).map(lambda one: {"as": "inline"} | one)


INLINE = st.recursive(
    SCALARS, lambda inner: st.lists(inner, max_size=3) | inline_tables(inner), max_leaves=8
)
TABLES = st.recursive(
    st.dictionaries(NAMES, INLINE, max_size=4),
    lambda inner: st.dictionaries(
        NAMES, INLINE | inner | st.lists(inner, min_size=1, max_size=3), max_size=4
    ),
    max_leaves=10,
)


@settings(max_examples=250, deadline=None)
@given(TABLES)
def test_the_lines_are_those_on_which_a_writer_put_the_keys(values: dict[str, Any]) -> None:
    writer = Writer()
    writer.table((), values, "")
    text = "\n".join(writer.rows) + "\n"
    assert tomllib.loads(text) == values
    assert lines(text) == writer.at
