"""Lines of a log are read to the byte: what says nothing is refused with its place and cause."""

import hashlib
import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.sealed import GAME, log_of, sealed, six
from wholeball.game.codec import event, events, read_log, unread
from wholeball.game.envelope import (
    MOST_EVENTS,
    YEAR_2000,
    YEAR_2100,
    Entry,
    Finding,
    stored_line,
    verify,
)
from wholeball.game.happenings import KickersListed, Noted, Unread
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.rulebook.editions import NEWEST, edition

LOG = six()
LINE = stored_line(LOG[1])
BYTES = st.binary(max_size=120) | st.binary(max_size=60).map(lambda b: b'{"event":' + b)


def read(*lines: bytes) -> tuple[Entry, ...]:
    return read_log(b"".join(line + b"\n" for line in lines), game=GAME, file="g-1.jsonl")


def faults(*lines: bytes) -> tuple[Fault, ...]:
    with pytest.raises(InputFaults) as refused:
        read(*lines)
    return refused.value.faults


def changed(**said: Any) -> bytes:
    """Return the line of a goal with other values, canonical and with its own right hash."""
    return _line({**json.loads(LOG[1].body), **said})


def _line(event_said: Any) -> bytes:
    body = json.dumps(event_said, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    data = body.encode("utf-8", "surrogatepass")
    return b'{"event":' + data + f',"hash":"{hashlib.sha256(data).hexdigest()}"}}'.encode()


def without(key: str) -> bytes:
    said = json.loads(LOG[1].body)
    del said[key]
    return _line(said)


def told(line: bytes) -> list[tuple[str, int | None]]:
    return [(fault.code, fault.place.line) for fault in faults(stored_line(LOG[0]), line)]


def test_a_log_is_read_into_the_entries_that_were_stored() -> None:
    assert read(*map(stored_line, LOG)) == tuple(LOG)
    assert read() == ()


@pytest.mark.parametrize(
    ("line", "code", "says"),
    [
        (b"", "syntax", "byte 1: this is no JSON: Expecting value"),
        (LINE[:-1], "syntax", f"byte {len(LINE)}: this is no JSON"),
        (LINE + b"\r", "not_canonical", f"byte {len(LINE) + 1}:"),
        (LINE.replace(b'{"clk"', b'{ "clk"'), "not_canonical", "byte 11:"),
        (LINE.replace(b'"who":"u-1"', b'"who":"\\u0075-1"'), "not_canonical", "canonical"),
        (LINE.replace(b'"v":1,', b'"v":1,"v":1,'), "duplicate_key", '"v" is given twice'),
        (LINE.replace(b"u-1", b"u-\xff"), "encoding", "0xff is not UTF-8"),
        (LINE.replace(b"u-1", b"\\ud800"), "encoding", "surrogate"),
        (LINE.replace(b'"v":1', b'"v":' + b"9" * 41), "range", "a number has 41 digits"),
        (LINE.replace(b'"v":1', b'"v":' + b"9" * 5000), "range", "a number has 5,000 digits"),
        (b'{"event":' + b"[" * 9000, "limits", "nested more than 16 deep"),
        (b"[" * 300_001, "limits", "the line has 300,001 bytes; 300,000 are read"),
        (b"[]", "syntax", 'not {"event"'),
        (b'{"event":[],"hash":""}', "syntax", 'not {"event"'),
        (b'{"event":' + LOG[1].body + b"}", "missing", "hash is missing"),
        (LINE[:-1] + b',"sig":7}', "type", "sig is 7"),
        (LINE[:-1] + b',"sig":""}', "range", 'sig is ""'),
        (LINE[:-1] + b',"more":1}', "unknown_key", '"more" is no key'),
        (LINE[:-3] + b'G"}', "range", "64 hexadecimal digits"),
    ],
    ids=lambda value: str(value)[:24] if isinstance(value, str) else "",
)
def test_bytes_that_are_no_line_are_refused_with_their_place(
    line: bytes, code: str, says: str
) -> None:
    (fault,) = faults(stored_line(LOG[0]), line)
    assert (fault.code, fault.place.file, fault.place.line) == (code, "g-1.jsonl", 2)
    assert says in fault.says


@pytest.mark.parametrize(
    ("said", "code", "says"),
    [
        ({"seq": "2"}, "type", 'seq is "2".'),
        ({"seq": 0}, "range", "seq is 0."),
        ({"seq": MOST_EVENTS + 1}, "limits", "seq is 2001."),
        ({"per": 10}, "range", "per is 10."),
        ({"clk": 86_401}, "range", "clk is 86401."),
        ({"clk": 60.0}, "type", "clk is 60.0."),
        ({"mono": 2**53}, "range", "mono is 9007199254740992."),
        ({"id": "01a0c450-6c00-4000-8000-000000000001"}, "range", "id is"),
        ({"dev": "my phone"}, "range", 'dev is "my phone".'),
        ({"rb": "B" * 64}, "range", "rb is"),
        ({"prev": "0"}, "range", 'prev is "0".'),
        ({"seen": {"a": [1, "x"]}}, "range", "seen"),
        ({"hlc": [YEAR_2000]}, "missing", "hlc item 2 is missing"),
        ({"hlc": [YEAR_2000, -1]}, "range", "is -1"),
        ({"role": ""}, "range", "role has 0 characters"),
        ({"more": 1}, "unknown_key", "more is no table or key"),
        ({"p": []}, "type", "p is []."),
    ],
    ids=str,
)
def test_an_envelope_of_another_form_is_refused(
    said: dict[str, Any], code: str, says: str
) -> None:
    (fault,) = faults(stored_line(LOG[0]), changed(**said))
    assert (fault.code, fault.place.line) == (code, 2)
    assert says in fault.says
    assert fault.says.startswith("byte ")


@pytest.mark.parametrize("key", list(json.loads(LOG[1].body)))
def test_each_field_is_needed(key: str) -> None:
    (fault,) = faults(without(key))
    assert (fault.code, f"{key} is missing" in fault.says) == ("missing", True)


@pytest.mark.parametrize(
    "ms", [0, -1, YEAR_2000 - 1, YEAR_2100, 2**63, float("nan"), "soon", 1.5]
)
def test_times_outside_2000_to_2099_are_refused(ms: Any) -> None:
    assert told(changed(wall=ms)) == [("range", 2)]
    assert told(changed(hlc=[ms, 0])) == [("range", 2)]


@pytest.mark.parametrize("ms", [YEAR_2000, YEAR_2100 - 1])
def test_the_first_and_the_last_millisecond_are_read(ms: int) -> None:
    (entry,) = read(changed(wall=ms, hlc=[ms, 2**53 - 1]))
    assert (entry.said.wall, entry.said.hlc) == (ms, (ms, 2**53 - 1))


def test_a_note_has_two_thousand_characters_and_no_more() -> None:
    assert len(read(changed(type="note", p={"text": "é" * 2_000}))) == 1
    (fault,) = faults(changed(type="note", p={"text": "é" * 2_001}))
    assert fault.code == "limits"
    assert "text has 2,001 characters" in fault.says
    assert [one.code for one in faults(changed(type="note", p={"text": "x" * 200_000}))] == [
        "limits"
    ]


@pytest.mark.parametrize(
    ("p", "code", "says"),
    [
        ({"side": "home", "number": "9"}, "type", 'p.number is "9"'),
        ({"side": "home", "number": 100}, "range", "p.number is 100"),
        ({"side": "both"}, "unknown_value", 'p.side is "both"'),
        ({}, "missing", "p.side is missing"),
        ({"side": "home", "assist": 7}, "unknown_key", "p.assist is not known"),
        ({"side": "home", "own": 1}, "type", "p.own is 1"),
        ({"side": "home", "number": 9.0}, "type", "p.number is 9.0"),
    ],
    ids=str,
)
def test_a_goal_of_another_form_is_refused(p: dict[str, Any], code: str, says: str) -> None:
    (fault,) = faults(changed(p=p))
    assert fault.code == code
    assert says in fault.says


def test_the_byte_of_a_fault_is_where_its_key_stands() -> None:
    line = changed(p={"side": "home", "number": 100})
    (fault,) = faults(line)
    at = int(fault.says.removeprefix("byte ").split(":")[0])
    assert line[at - 1 :].startswith(b'"number":100')


def test_all_faults_of_a_file_are_told_at_once_and_a_hundred_shown() -> None:
    bad = [changed(per=10, clk=99_999), b"?"] * 60
    with pytest.raises(InputFaults) as refused:
        read(*bad)
    assert (len(refused.value.faults), refused.value.code) == (180, "many_errors")
    assert str(refused.value).count("\n") == 101
    assert "80 more like these; 180 in all" in str(refused.value)


def test_a_last_line_without_an_end_was_cut() -> None:
    with pytest.raises(InputFaults) as refused:
        read_log(LINE + b"\n" + LINE[:50], game=GAME, file="g-1.jsonl")
    assert [(one.code, one.place.line) for one in refused.value.faults] == [("torn", 2)]


def test_another_game_is_not_read_into_this_one() -> None:
    assert [fault.code for fault in faults(changed(game="g-2"))] == ["other_game"]


def test_two_thousand_lines_of_a_device_are_read_and_no_more() -> None:
    assert len(read(*[LINE] * MOST_EVENTS)) == MOST_EVENTS
    (fault,) = faults(*[LINE] * (MOST_EVENTS + 1))
    assert (fault.code, "2,001 entries" in fault.says) == ("limits", True)


@pytest.mark.parametrize(
    "said",
    [{"v": 2}, {"type": "goal_seen_by_camera"}, {"v": 2, "p": {"deep": [{"a": [1, None]}]}}],
    ids=str,
)
def test_a_newer_kind_is_kept_byte_for_byte_and_not_read(said: dict[str, Any]) -> None:
    line = changed(**said)
    log = read(stored_line(LOG[0]), line, stored_line(LOG[2]))
    assert stored_line(log[1]) == line
    newer = event(log[1])
    assert newer.what == Unread(kind=log[1].said.type, v=log[1].said.v)
    assert events(log) == (event(LOG[0]), newer, event(LOG[2]))
    (asked,) = (
        one
        for one in play(events(log), game_rules(edition(NEWEST))).questions
        if one.event == newer.id
    )
    assert (asked.code, asked.counts) == ("update_needed", False)
    assert unread(log) == (Finding("future_version", "phone", 2),)


@pytest.mark.parametrize(
    ("p", "code"),
    [
        ({"a": 1.5}, "type"),
        ({"a": float("nan")}, "type"),
        ({"a": 2**53}, "range"),
        ({"a": "\ud800"}, "encoding"),
        ({"a": [[[[[[[[[[[[[[[[[0]]]]]]]]]]]]]]]]]}, "limits"),
    ],
    ids=str,
)
def test_a_newer_kind_too_holds_what_every_reader_keeps(p: dict[str, Any], code: str) -> None:
    line = changed(v=2, p=p) if code != "encoding" else _escaped(p)
    assert [fault.code for fault in faults(line)] == [code]


def _escaped(p: dict[str, Any]) -> bytes:
    return changed(v=2, p={"a": "?"}).replace(b'"?"', json.dumps(p["a"]).encode())


def test_lists_of_a_payload_are_read() -> None:
    entry = sealed(KickersListed(side="home", numbers=(1, 2, 3)))
    (event_read,) = events(read(stored_line(entry)))
    assert event_read.what == KickersListed(side="home", numbers=(1, 2, 3))


@given(BYTES)
def test_no_bytes_bring_anything_but_faults(data: bytes) -> None:
    if data:
        with pytest.raises(InputFaults):
            read_log(data, game=GAME, file="g-1.jsonl")
    else:
        assert read_log(data, game=GAME, file="g-1.jsonl") == ()


@given(st.integers(0, len(LINE) - 1), st.integers(0, 255))
def test_a_line_with_another_byte_is_refused_or_found(place: int, other: int) -> None:
    line = LINE[:place] + bytes([other]) + LINE[place + 1 :]
    try:
        entries = read(stored_line(LOG[0]), line)
    except InputFaults:
        assert line != LINE
        return
    assert bool(verify(entries).findings) == (line != LINE)


@given(st.lists(st.text(st.characters(codec="utf-8"), max_size=50), max_size=5))
def test_what_was_stored_is_read_back_as_it_was_said(words: list[str]) -> None:
    log = log_of([Noted(text=one) for one in words])
    assert [one.what for one in events(read(*map(stored_line, log)))] == [
        Noted(text=one) for one in words
    ]
