"""What was sealed stays sealed: every change of a device's chain is found, a cut tail is not."""

import hashlib
import json
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.sealed import RULEBOOK, log_of, sealed, six, uuid7
from wholeball.game.codec import event
from wholeball.game.envelope import (
    MOST_EVENTS,
    Entry,
    Finding,
    heads,
    is_canonical,
    next_clock,
    stored_entry,
    stored_line,
    verify,
)
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import Goal, Noted, PeriodStarted
from wholeball.kernel.canonical import canonical_bytes

LOG = six()
WORDS = st.text(st.characters(codec="utf-8"), max_size=40)
ATOMS = (
    st.none() | st.booleans() | st.integers() | WORDS | st.sampled_from((0.5, 1.0, 1e300, -0.0))
)
PAYLOADS = st.dictionaries(
    WORDS,
    st.recursive(
        ATOMS, lambda inner: st.lists(inner) | st.dictionaries(WORDS, inner), max_leaves=8
    ),
    max_size=4,
)


def again(entry: Entry, body: bytes) -> Entry:
    """Put other bytes where an entry stood, as somebody with an editor would."""
    changed = stored_entry(stored_line(entry._replace(body=body)))
    assert changed is not None
    return changed


def test_an_entry_is_sealed_into_these_very_bytes() -> None:
    entry = sealed(Goal(side="home", number=9), at=Moment(2, 61))
    assert stored_line(entry).decode() == (
        '{"event":{"clk":61,"dev":"phone","game":"g-1","hlc":[1790000001000,0],'
        '"id":"01a0c450-6c00-7000-8000-000000000001","mono":1000,'
        '"p":{"number":9,"own":false,"penalty":false,"side":"home","timed":true},"per":2,'
        '"prev":"",'
        f'"rb":"{RULEBOOK}","role":"scorekeeper","seen":{{}},"seq":1,"type":"goal","v":1,'
        f'"wall":1790000001000,"who":"u-1"}},"hash":"{entry.hash}"}}'
    )
    assert entry.hash == hashlib.sha256(entry.body).hexdigest()


def test_the_hash_is_the_sha_256_that_fips_180_4_defines() -> None:
    # NIST, "SHA-256" examples to FIPS 180-4: the one-block message "abc".
    assert hashlib.sha256(b"abc").hexdigest() == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    )


def test_the_bytes_are_those_of_rfc_8785_where_keys_are_ascii() -> None:
    # RFC 8785, section 3.2.3: its keys in the order of UTF-16 units. The smiling face (a pair
    # of surrogates, d83d) stands there before U+FB33; by code points, as here, it stands after.
    keys = ["\r", "1", "\x80", "\xf6", "\u20ac", "\U0001f600", "\ufb33"]
    ours = list(json.loads(canonical_bytes(dict.fromkeys(keys, 0))))
    assert sorted(keys, key=lambda key: key.encode("utf-16-be")) == keys
    assert ours == [*keys[:-2], keys[-1], keys[-2]]
    assert all(key.isascii() for entry in LOG for key in [*entry.said.__dict__, *entry.said.p])


def test_a_chain_links_each_entry_to_the_one_before() -> None:
    assert [one.said.seq for one in LOG] == [1, 2, 3, 4, 5, 6]
    assert [one.said.prev for one in LOG] == ["", *(one.hash for one in LOG[:-1])]
    report = verify(LOG)
    assert (report.findings, report.standing, report.set_aside) == ((), tuple(LOG), ())


def test_an_author_states_what_it_has_seen() -> None:
    log = log_of([Noted(text=str(n)) for n in range(4)], devices=("a", "b"))
    assert log[3].said.seen == {"a": (2, log[2].hash), "b": (1, log[1].hash)}
    assert heads(log) == {"a": (2, log[2].hash), "b": (2, log[3].hash)}


def test_an_entry_cannot_follow_another_device() -> None:
    with pytest.raises(ValueError, match="cannot follow"):
        sealed(Noted(text=""), dev="other", after=LOG[0])


def test_the_hybrid_clock_follows_the_wall_until_somebody_is_ahead() -> None:
    assert next_clock(10, []) == (10, 0)
    assert next_clock(10, [(9, 7)]) == (10, 0)
    assert next_clock(10, [(10, 0)]) == (10, 1)
    assert next_clock(10, [(9, 9), (10, 4), (10, 2)]) == (10, 5)
    assert next_clock(10, [(95_000_000_000, 0)]) == (95_000_000_000, 1)


@given(st.integers(1, 100), st.lists(st.tuples(st.integers(1, 100), st.integers(0, 9))))
def test_the_hybrid_clock_is_later_than_all_that_is_known(
    wall: int, known: list[tuple[int, int]]
) -> None:
    clock = next_clock(wall, known)
    assert all(clock > one for one in known)
    assert clock[0] == max([wall, *(ms for ms, _ in known)])


@given(st.lists(WORDS, max_size=6), st.none() | st.just("ed25519:AAEC/+="))
def test_what_was_sealed_is_read_again_and_written_alike(
    words: list[str], sig: str | None
) -> None:
    for entry in log_of([Noted(text=one) for one in words], devices=("a", "b")):
        kept = entry._replace(sig=sig)
        line = stored_line(kept)
        assert stored_entry(line) == kept
        assert json.loads(line)["event"]["p"]["text"] == entry.said.p["text"]
        assert entry.body == canonical_bytes(json.loads(line)["event"])
        assert is_canonical(entry)


def _bodies(payload: dict[str, object], seen: list[str]) -> list[bytes]:
    """Return ways to write an entry: keys sorted or as they come, with or without spaces."""
    said = json.loads(LOG[2].body)
    told = {**said, "p": payload, "seen": {dev: [1, RULEBOOK] for dev in seen}}
    return [
        json.dumps(
            told, sort_keys=is_sorted, ensure_ascii=is_ascii, separators=separators
        ).encode()
        for is_sorted in (True, False)
        for is_ascii in (True, False)
        for separators in ((",", ":"), (", ", ": "))
    ]


@given(PAYLOADS, st.lists(st.sampled_from(("a", "B", "_", "b-2")), unique=True))
def test_bytes_are_canonical_if_json_of_the_standard_library_writes_them_so(
    payload: dict[str, object], seen: list[str]
) -> None:
    for body in _bodies(payload, seen):
        try:
            expected = body == canonical_bytes(json.loads(body))
        except TypeError:
            expected = False
        assert is_canonical(again(LOG[2], body)) == expected


def test_every_sign_of_unicode_is_canonical_as_json_of_the_standard_library_writes_it() -> None:
    signs = "".join(map(chr, (*range(0xD800), *range(0xE000, 0x110000))))
    said = json.loads(LOG[2].body)
    body = canonical_bytes({**said, "p": {"text": signs}})
    assert is_canonical(again(LOG[2], body))


@pytest.mark.parametrize("at", range(6))
def test_an_edited_entry_is_found_by_its_number(at: int) -> None:
    edited = LOG[at].body.replace(b'"who":"u-1"', b'"who":"u-2"')
    report = verify([*LOG[:at], again(LOG[at], edited), *LOG[at + 1 :]])
    assert report.findings == (Finding("chain", "phone", at + 1),)
    assert report.standing == tuple(LOG[:at])
    assert len(report.set_aside) == 6 - at


@pytest.mark.parametrize("at", range(5))
def test_a_deleted_entry_is_a_gap(at: int) -> None:
    report = verify([*LOG[:at], *LOG[at + 1 :]])
    assert report.findings == (Finding("gap", "phone", at + 1),)
    assert (report.standing, report.set_aside) == (tuple(LOG[:at]), tuple(LOG[at + 1 :]))


@pytest.mark.parametrize("at", range(5))
def test_a_deletion_hidden_by_new_numbers_is_a_broken_chain(at: int) -> None:
    moved = [_one_less(entry) for entry in LOG[at + 1 :]]
    report = verify([*LOG[:at], *moved])
    assert report.findings == (Finding("chain", "phone", at + 1),)
    assert report.standing == tuple(LOG[:at])


def _one_less(entry: Entry) -> Entry:
    old, new = f'"seq":{entry.said.seq},"type"', f'"seq":{entry.said.seq - 1},"type"'
    body = entry.body.replace(old.encode(), new.encode())
    return again(entry._replace(hash=hashlib.sha256(body).hexdigest()), body)


@pytest.mark.parametrize("at", range(1, 6))
def test_an_inserted_entry_is_a_fork_and_what_stood_stands(at: int) -> None:
    stray = sealed(Goal(side="away", number=1), number=77, after=LOG[at - 1])
    report = verify([*LOG, stray])
    assert report.findings == (Finding("fork", "phone", at + 1),)
    assert (report.standing, report.set_aside) == (tuple(LOG), (stray,))


@pytest.mark.parametrize("at", range(1, 6))
def test_a_branch_that_went_on_is_one_fork(at: int) -> None:
    stray = sealed(Noted(text="b"), number=77, after=LOG[at - 1])
    longer = [stray]
    for number in range(78, 88):
        longer.append(sealed(Noted(text="b"), number=number, after=longer[-1]))
    report = verify([*LOG, *longer])
    assert report.findings == (Finding("fork", "phone", at + 1),)
    assert (report.standing, set(map(stored_line, report.set_aside))) == (
        tuple(LOG),
        set(map(stored_line, longer)),
    )


@pytest.mark.parametrize(("one", "other"), list(combinations(range(6), 2)))
def test_two_entries_with_their_payloads_swapped_are_found(one: int, other: int) -> None:
    bodies = [entry.body for entry in LOG]
    bodies[one], bodies[other] = (
        _with_payload(LOG[one], LOG[other]),
        _with_payload(LOG[other], LOG[one]),
    )
    swapped = [again(entry, body) for entry, body in zip(LOG, bodies, strict=True)]
    first = next(n for n, entry in enumerate(swapped) if entry.body != LOG[n].body)
    assert verify(swapped).findings == (Finding("chain", "phone", first + 1),)


def _with_payload(entry: Entry, other: Entry) -> bytes:
    said = json.loads(entry.body)
    return canonical_bytes({**said, "p": other.said.p, "type": other.said.type})


def test_the_order_in_which_a_log_lies_makes_no_difference() -> None:
    report = verify(reversed(LOG))
    assert (report.findings, report.standing) == ((), tuple(LOG))


def test_an_exact_repeat_is_no_fault() -> None:
    assert verify([*LOG, LOG[2], *LOG]).findings == ()


@pytest.mark.parametrize("kept", range(6))
def test_a_cut_tail_is_not_found_by_the_chain_alone(kept: int) -> None:
    report = verify(LOG[:kept])
    assert (report.findings, report.standing) == ((), tuple(LOG[:kept]))


def test_an_edited_head_with_a_new_hash_is_not_found_by_the_chain_alone() -> None:
    body = LOG[5].body.replace(b'"who":"u-1"', b'"who":"u-2"')
    changed = again(LOG[5]._replace(hash=hashlib.sha256(body).hexdigest()), body)
    assert verify([*LOG[:5], changed]).findings == ()


@given(st.data())
def test_any_change_of_one_byte_that_can_be_read_is_found(data: st.DataObject) -> None:
    at = data.draw(st.integers(0, 5))
    line = stored_line(LOG[at])
    place = data.draw(st.integers(0, len(line) - 1))
    other = data.draw(st.integers(0, 255).filter(lambda one: one != line[place]))
    changed = line[:place] + bytes([other]) + line[place + 1 :]
    try:
        entry = stored_entry(changed)
    except ValueError:
        return
    if entry is None:
        return
    assert verify([*LOG[:at], entry, *LOG[at + 1 :]]).findings != ()


def test_one_id_with_two_contents_is_a_clash_and_both_stand() -> None:
    other = sealed(Noted(text="other"), LOG, dev="tablet", number=2)
    assert other.said.id == LOG[1].said.id
    report = verify([*LOG, other])
    assert report.findings == (Finding("id_clash", "tablet", 1),)
    assert report.standing == (*LOG, other)


def test_an_entry_sent_again_by_a_renamed_device_is_no_clash() -> None:
    same = sealed(Goal(side="home", number=9), [], dev="renamed", number=2, at=Moment(1, 60))
    assert verify([*LOG, same]).findings == ()


def test_a_device_has_two_thousand_numbers_and_no_more() -> None:
    text = Noted(text="")
    last = LOG[5]
    head = last._replace(said=last.said.model_copy(update={"seq": MOST_EVENTS - 1}))
    assert sealed(text, number=9, after=head).said.seq == MOST_EVENTS
    full = last._replace(said=last.said.model_copy(update={"seq": MOST_EVENTS}))
    with pytest.raises(ValueError, match="less than or equal to 2000"):
        sealed(text, number=9, after=full)


def test_an_event_is_what_an_entry_says_without_its_envelope() -> None:
    entry = sealed(PeriodStarted(kick_off="away"), at=Moment(2, 0), number=3)
    assert event(entry) == Event(
        uuid7(3),
        Moment(2, 0),
        (1_790_000_003_000, 0, "phone", 1),
        PeriodStarted(kick_off="away"),
    )
