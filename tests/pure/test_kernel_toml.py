"""A file of TOML is read whole, or refused with one fault that says where and how to mend it."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.toml import MOST_BYTES, MOST_VALUES, decode, frozen, read_toml

DEEP = "brackets or tables are nested more than 32 deep."
LONG = "a number has more than 18 digits before or after its point."
MANY = "the file holds more than 20,000 values."
CLOSE = "Close what is opened here."
MEND = "Mend this place; what follows was not read."
UTF8 = "Save the file as UTF-8."
NEWLINE = "Expected newline or end of document after a statement."


def fault(code: str, line: int | None, says: str, cure: str) -> Fault:
    return Fault(code=code, place=Place(file="r.toml", line=line), says=says, cure=cure)


def refused(data: bytes | str) -> Fault:
    """Return the one fault of a file that is refused as a whole."""
    with pytest.raises(InputFaults) as caught:
        read_toml(data.encode() if isinstance(data, str) else data, file="r.toml")
    (only,) = caught.value.faults
    return only


@pytest.mark.parametrize("data", [b"", b" \n\t\n", b"\xef\xbb\xbf", b"\xef\xbb\xbf\r\n"])
def test_a_file_without_a_word_is_empty(data: bytes) -> None:
    says = "the file is empty."
    assert refused(data) == fault("empty", None, says, "Write it, or start from a preset.")


def test_a_file_of_2_000_000_bytes_is_read_and_one_more_is_not() -> None:
    filler = b"a = 1 #" + b"x" * (MOST_BYTES - 7)
    assert read_toml(filler, file="r.toml") == {"a": 1}
    assert refused(filler + b"x") == fault(
        "limits",
        None,
        "the file has 2,000,001 bytes; at most 2,000,000 are read.",
        "Take out what is not a rule.",
    )


@pytest.mark.parametrize("mark", [b"\xff\xfe", b"\xfe\xff"])
def test_utf_16_is_named(mark: bytes) -> None:
    assert refused(mark + b"m\x00") == fault(
        "encoding", None, "the file is UTF-16.", "Save it as UTF-8."
    )


@pytest.mark.parametrize("before", [b"", b"\xef\xbb\xbf"])
def test_a_byte_that_is_not_utf_8_is_named_with_its_line(before: bytes) -> None:
    given_ = before + b'a = 1\r\nname = "Zo\xeb"\n'
    assert refused(given_) == fault("encoding", 2, "byte 0xeb is not UTF-8.", UTF8)


@pytest.mark.parametrize("data", [b"\xef\xbb\xbfa = 1", b"a = 1\r\n", b"# x\r\na = 1\nb.c = 2"])
def test_a_byte_order_mark_and_line_ends_of_any_system_make_no_difference(data: bytes) -> None:
    assert read_toml(data, file="r.toml")["a"] == 1


@pytest.mark.parametrize(
    ("text", "line", "point"),
    [
        ("a = 1\nb\x00 = 2", 2, "0000"),
        ('a = "x\x00y"', 1, "0000"),
        ("# \x01", 1, "0001"),
        ("a = 1\r\nb = 2\rc = 3", 2, "000D"),
        ("\n\na = '\x1b[31m'", 3, "001B"),
        ('a = "\x7f"', 1, "007F"),
    ],
)
def test_a_control_character_is_named_with_its_line(text: str, line: int, point: str) -> None:
    says = f"U+{point} stands here, which nobody can see."
    assert refused(text) == fault(
        "control_char", line, says, "Delete it and type the words again."
    )


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = " + "[" * 33 + "]" * 33, 1),
        ("x = 1\na = " + "[" * 5_000 + "]" * 5_000, 2),
        ("a = " + "{a = " * 33 + "1" + "}" * 33, 1),
        ("[" + ".".join("a" * 34) + "]", 1),
        (".".join(["a"] * 5_000) + " = 1", 1),
        (".".join(['"a"'] * 5_000) + " = 1", 1),
        ("x = 1\n\ny = {z = 1, " + " . ".join("a" * 34) + " = 1}", 3),
        ("'x'" + ".a" * 5_000 + " = 1", 1),
        ("[" + ".".join("a" * 20) + "]\n" + ".".join("b" * 20) + " = 1", None),
        ("a = " + "{" + ".".join("b" * 20) + " = {" + ".".join("c" * 20) + " = 1}}", None),
    ],
)
def test_nesting_deeper_than_32_is_refused_before_anything_recurses(
    text: str, line: int | None
) -> None:
    assert refused(text) == fault("limits", line, DEEP, "No rule needs more than four levels.")


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 31 + "]" * 31,
        ".".join("a" * 32) + " = 1",
        "a = '''\n" + "." * 99 + "[" * 99 + "'''",
        'a = ["""x"""", "["]',
        "# don't\na = 1 # " + "[" * 99 + "." * 99,
        'a = "' + "[" * 99 + "." * 99 + '"',
    ],
)
def test_depth_that_only_looks_deep_is_read(text: str) -> None:
    assert "a" in read_toml(text.encode(), file="r.toml")


def test_20_000_values_are_read_and_one_more_is_not() -> None:
    ones = "1," * (MOST_VALUES - 2)
    assert len(read_toml(f"a = [{ones}]".encode(), file="r.toml")["a"]) == 19_998
    assert refused(f"b = 1\na = [{ones}]") == fault(
        "limits", 2, MANY, "Take out what is not a rule."
    )


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("a = 1" + "0" * 400, 1),
        ("b = 1\na = " + "9" * 5_000, 2),
        ("a = -" + "9" * 5_000, 1),
        ("a = 0x" + "f" * 5_000, 1),
        ("a = 1" + "_0" * 5_000, 1),
        ("a = 1e400", 1),
        ("# 1e400\nb = '1e400'\na = 1e400", 3),
        ("a = 1e9999999999999999999", 1),
        ("a = 1e-99999999999999999999", 1),
        ("a = 1e-40", 1),
        ("a = 0.1234567890123456789", 1),
    ],
)
def test_a_number_that_measures_nothing_is_out_of_range(text: str, line: int) -> None:
    cure = "Give a number that something can be measured with."
    assert refused(text) == fault("range", line, LONG, cure)


def test_numbers_with_a_point_are_exact_and_the_longest_is_read() -> None:
    text = "a = 0.1\nb = 123456789012345678.0\nc = 0.123456789012345678\nd = inf\ne = 1e3"
    assert read_toml(text.encode(), file="r.toml") == {
        "a": Decimal("0.1"),
        "b": Decimal("123456789012345678.0"),
        "c": Decimal("0.123456789012345678"),
        "d": Decimal("inf"),
        "e": Decimal("1e3"),
    }


@pytest.mark.parametrize(
    ("text", "line", "told"),
    [
        ("[game]\nperiods = 2\nperiods = 1", 3, "periods = 1"),
        ("[game]\nminutes = 2\n\n[game]\nperiods = 2", 4, "[game]"),
        ("a = {b = 1, b = 2}", 1, "a = {b = 1, b = 2}"),
        ("a = {b = 1}\n[a.c]", 2, "[a.c]"),
        ("[[a]]\nb = 1\n[a]", 3, "[a]"),
        ("a.b = 1\na = 2", 2, "a = 2"),
    ],
)
def test_a_key_given_twice_is_refused_and_neither_wins(text: str, line: int, told: str) -> None:
    says = f"{told!r} gives again what is given already."
    cure = "Each key stands once; take one of the two out."
    assert refused(text) == fault("duplicate_key", line, says, cure)


@pytest.mark.parametrize(
    ("text", "line", "says", "cure"),
    [
        ("a = 12:00", 1, NEWLINE, "Write a time with its seconds: 12:00:00."),
        ("a = 25:00:00", 1, NEWLINE, "There is no such time: the last is 23:59:59."),
        ("\na = 022", 2, NEWLINE, "Write the number without a 0 in front."),
        ("a = 1 b = 2", 1, NEWLINE, MEND),
        (
            "game:\n  minutes: 22",
            1,
            "Expected '=' after a key in a key/value pair.",
            "Write it as: key = value.",
        ),
        (
            "[game]\nclock = running",
            2,
            "Invalid value.",
            "Write text in quotes, and numbers, true and false without.",
        ),
        (
            'a = "x\nb = 1',
            1,
            r"Illegal character '\n'.",
            "Close the quote on the line on which it is opened.",
        ),
        (
            "a = 2026-02-30",
            1,
            "Invalid date or datetime.",
            "There is no such day or time: write 2026-09-15 or 12:00:00.",
        ),
        ('a = 1\nb = """x\n\n\n', 2, "Unterminated string.", CLOSE),
        ("a = 1\nb = '''x\n\n\n", 2, "Expected \"'''\".", CLOSE),
        (
            "a = 1\nb = [1,\n2,\n",
            2,
            "Invalid value.",
            CLOSE,
        ),
        ('{"game": {"minutes": 22}}', 1, "Invalid statement.", MEND),
        ('a = "\\ud800"', 1, "Escaped character is not a Unicode scalar value.", MEND),
    ],
)
def test_a_fault_of_syntax_says_where_and_how_to_mend_it(
    text: str, line: int, says: str, cure: str
) -> None:
    assert refused(text) == fault("syntax", line, says, cure)


def test_a_fault_is_short_however_long_its_key() -> None:
    key = "x" * 100_000
    assert len(str(refused(f"{key} = 1\n{key} = 2"))) < 300
    assert len(str(refused(f"[{key}]\n[{key}]"))) < 300


def test_lists_become_tuples_all_the_way_down() -> None:
    assert frozen({"a": [1, [2, {"b": [3]}]]}) == {"a": (1, (2, {"b": (3,)}))}


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused_with_one_fault(data: bytes) -> None:
    _read_or_refused(data)


TOMLISH = st.text(st.sampled_from(list("ab.=[]{}\"'\\\n,#1e-:xT_ \r\t\x00é😀")), max_size=50)


@settings(max_examples=400, deadline=None)
@given(TOMLISH)
def test_any_text_of_marks_is_read_or_refused_with_one_fault(text: str) -> None:
    _read_or_refused(text.encode())


def _read_or_refused(data: bytes) -> None:
    try:
        read_toml(data, file="r.toml")
    except InputFaults as error:
        (only,) = error.faults
        assert only.place.line is None or 1 <= only.place.line <= data.count(b"\n") + 1


@given(st.text(max_size=40))
def test_text_comes_back_from_its_bytes(text: str) -> None:
    plain = text.removeprefix("\ufeff").replace("\r\n", "\n")
    assert decode(b"\xef\xbb\xbf" + text.encode(), file="r.toml").removeprefix(
        "\ufeff"
    ) == plain.removeprefix("\ufeff")
