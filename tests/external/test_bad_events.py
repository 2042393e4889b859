"""Odd and bad entries of a game get exactly the outcome and the code that the check data names.

Each sentence of a row is played as a person would read it. What several devices, the server and
the season make of entries waits for their rooms, and is skipped by name.
"""

import hashlib
import json
from collections.abc import Callable
from typing import NamedTuple, TypeAlias

import pytest

from cases.sealed import GAME, sealed, six
from external.cases import Case, by_id, read
from wholeball.files.paper_card import card_of
from wholeball.game.codec import events, read_log, unread
from wholeball.game.envelope import MOST_EVENTS, Entry, stored_line, verify
from wholeball.game.event import KICKS, Event, Moment
from wholeball.game.happenings import (
    Cautioned,
    Certified,
    CheckedIn,
    Counted,
    Goal,
    Happening,
    KickersListed,
    KickTaken,
    Noted,
    PeriodEnded,
    PeriodStarted,
    Retracted,
    SentOff,
    SignRefused,
)
from wholeball.game.official import official
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.game.state import GameState
from wholeball.kernel.faults import InputFaults
from wholeball.league.fixture import Stage
from wholeball.rulebook.load import load

ROWS: list[Case] = [row for row in read("bad_inputs.jsonl") if row["area"] == "card"]
WAITING = {
    "merged": "two devices are merged by the field's pages",
    "conflict": "two devices are merged by the field's pages",
    "not_assigned": "the server knows who is assigned",
    "ineligible_player": "a game reads no other game; the season knows who is suspended",
    "unsent": "the server knows what a device has not sent",
    "clock": "the server compares a phone's clock with its own",
}
"""The codes of rows that other rooms answer, and which."""
BOOK = load(
    b"""
    base = "laws-2025-26"
    game.minutes = 20
    sides = { on_field = 9, minimum_to_start = 6, minimum_to_continue = 6 }
    ties = { league = "draw", play_off = "overtime_then_kicks" }
    overtime = { ends = "golden_goal", periods = 1, minutes = 3 }
    mercy.ladder = [{ lead = 3, minutes_left = 15 }]
    ratings = { by = "officials", scale = { low = 1, high = 5, step = 1 } }
    """,
    file="house.toml",
).rulebook
FULL = (
    (1, 0, PeriodStarted()),
    (1, 1200, PeriodEnded()),
    (2, 0, PeriodStarted()),
    (2, 1200, PeriodEnded()),
)
TO_KICKS = (*FULL, (3, 0, PeriodStarted()), (3, 180, PeriodEnded()))
Timed: TypeAlias = tuple[int, int, Happening]


class Outcome(NamedTuple):
    outcome: str
    code: str


def state_of(*timed: Timed, stage: Stage = "play_off") -> GameState:
    made = [
        Event(f"e{index}", Moment(period, clock), (index, 0, "phone", index), what)
        for index, (period, clock, what) in enumerate(timed)
    ]
    return play(made, game_rules(BOOK, stage))


def asked(*timed: Timed, stage: Stage = "play_off") -> Outcome:
    """Return the one question that a game raises, or that it raises none."""
    codes = {one.code for one in state_of(*timed, stage=stage).questions}
    if not codes:
        return Outcome("accept", "ok")
    (code,) = codes
    return Outcome("accept" if code == "pending" else "flag", code)


def kicks(*scored: tuple[str, bool]) -> tuple[Timed, ...]:
    return tuple(
        (KICKS, number, KickTaken(side="home" if side == "A" else "away", scored=goal))
        for number, (side, goal) in enumerate(scored, start=1)
    )


def read_lines(*lines: bytes) -> Outcome:
    try:
        entries = read_log(b"".join(line + b"\n" for line in lines), game=GAME, file="log")
    except InputFaults as refused:
        (code,) = {fault.code for fault in refused.faults}
        return Outcome("reject", code)
    findings = (*verify(entries).findings, *unread(entries))
    if not findings:
        return Outcome("accept", "ok")
    (found,) = {finding.code for finding in findings}
    assert play(events(verify(entries).standing), game_rules(BOOK)).phase
    return Outcome("set_aside", found)


def stored(log: list[Entry]) -> list[bytes]:
    return [stored_line(entry) for entry in log]


def second_caution() -> Outcome:
    state = state_of(
        (1, 0, PeriodStarted()),
        (1, 60, Cautioned(side="home", number=4)),
        (1, 90, Cautioned(side="home", number=4)),
    )
    (red,) = (line for line in state.cards if line.colour == "red")
    (follows,) = (one for one in state.statements if one.code == "second_caution")
    assert (red.derived, follows.article, state.questions) == (True, "cards", ())
    return Outcome("accept", "derived")


def id_clash() -> Outcome:
    first = Event("same", Moment(1, 60), (1, 0, "phone", 1), Goal(side="home"))
    second = Event("same", Moment(1, 90), (2, 0, "phone", 2), Goal(side="away"))
    state = play([second, first], game_rules(BOOK))
    (question,) = (one for one in state.questions if one.code == "id_clash")
    assert not question.counts
    assert [line.side for line in state.goals] == ["home"]
    return Outcome("set_aside", question.code)


def gap() -> Outcome:
    log = six()
    return read_lines(*stored([*log[:3], *log[4:]]))


def fork() -> Outcome:
    log = six()
    other = sealed(Noted(text="other"), log[:2], number=99)
    return read_lines(*stored([*log[:3], other]))


def chain() -> Outcome:
    lines = stored(six())
    lines[2] = lines[2].replace(b"Ballwechsel", b"Ballwechsem")
    return read_lines(*lines)


def changed(**said: object) -> bytes:
    """Return a stored goal with other values and with its own right hash."""
    body = json.dumps(
        {**json.loads(sealed(Goal(side="home")).body), **said},
        sort_keys=True,
        separators=(",", ":"),
    ).encode()
    return b'{"event":' + body + f',"hash":"{hashlib.sha256(body).hexdigest()}"}}'.encode()


def timestamps() -> Outcome:
    outcomes = {read_lines(changed(wall=wall)) for wall in (0, -1, 2**63)}
    outcomes |= {read_lines(changed(hlc=[wall, 0])) for wall in (0, -1, 2**63)}
    for odd in ("NaN", '"text"'):
        line = changed(wall=1_790_000_000_000).replace(
            b'"wall":1790000000000', f'"wall":{odd}'.encode()
        )
        assert read_lines(line).outcome == "reject"
    (outcome,) = outcomes
    return outcome


def clock_back() -> Outcome:
    log = [sealed(PeriodStarted())]
    log.append(sealed(Goal(side="home"), log, number=10_900))
    log.append(sealed(Goal(side="away"), log, number=100, at=Moment(1, 90)))
    assert [one.said.hlc for one in log] == sorted(one.said.hlc for one in log)
    return read_lines(*stored(log))


def late() -> Outcome:
    log = six()
    head = log[-1]
    certify = sealed(
        Certified(
            by="supervisor", state="", frontier=((head.said.dev, head.said.seq, head.hash),)
        ),
        log,
        dev="desk",
    )
    after = sealed(Goal(side="home"), [*log, certify], at=Moment(1, 1100))
    result = official([*log, certify, after], game_rules(BOOK))
    assert result is not None
    assert result.late is not None
    assert [entry.said.id for entry in result.late.entries] == [after.said.id]
    assert result.late.would_change == ("score",)
    return Outcome("flag", "late")


def rating() -> Outcome:
    """Type the row's ratings in: each is off the scale, off its steps, or no rating."""
    codes = set()
    for typed in ("6", "0", "4.5", '""'):
        card = f"""periods = ["1-0", "0-0"]
        [[ratings]]
        side = "home"
        by = "official"
        value = {typed}
        """
        with pytest.raises(InputFaults) as refused:
            card_of(card.encode(), file="g-1.toml", rules=game_rules(BOOK))
        codes |= {fault.code for fault in refused.value.faults}
    (code,) = codes
    return Outcome("reject", code)


START: Timed = (1, 0, PeriodStarted())
RECIPES: dict[str, Callable[[], Outcome]] = {
    "goal by number 44, not on the roster": lambda: asked(
        START, (0, 0, CheckedIn(side="home", number=7)), (1, 60, Goal(side="home", number=44))
    ),
    "two kick-offs of the first half, same device, 10 min apart": lambda: asked(
        START, (1, 600, PeriodStarted())
    ),
    "goal after full time": lambda: asked(*FULL, (2, 1260, Goal(side="home")), stage="league"),
    "goal before the kick-off": lambda: asked((0, 0, Goal(side="home"))),
    "goal in a stopped-clock interval": lambda: asked(*FULL[:2], (1, 1230, Goal(side="home"))),
    "same device taps goal twice within 2 s": lambda: asked(
        START, (1, 60, Goal(side="home")), (1, 62, Goal(side="home"))
    ),
    "two real goals within 40 s on one device": lambda: asked(
        START, (1, 60, Goal(side="home")), (1, 98, Goal(side="home"))
    ),
    "second caution to one player": second_caution,
    "third caution to one player": lambda: asked(
        START, *((1, 60 * n, Cautioned(side="home", number=4)) for n in (1, 2, 3))
    ),
    "goal by a player sent off earlier": lambda: asked(
        START, (1, 60, SentOff(side="home", number=9)), (1, 90, Goal(side="home", number=9))
    ),
    "kicks: home kicks twice in a row": lambda: asked(
        *TO_KICKS, *kicks(("A", True), ("A", True))
    ),
    "kicks kick after it was decided 4-1": lambda: asked(
        *TO_KICKS,
        *kicks(
            ("A", True),
            ("B", True),
            ("A", True),
            ("B", False),
            ("A", True),
            ("B", False),
            ("A", True),
            ("B", True),
        ),
    ),
    "kicks entered in a league game that may end level": lambda: asked(
        *FULL, *kicks(("A", True)), stage="league"
    ),
    "kicks kicker was not on the field at the end": lambda: asked(
        *TO_KICKS,
        (KICKS, 0, KickersListed(side="home", numbers=(1, 2, 3))),
        (KICKS, 1, KickTaken(side="home", number=8, scored=True)),
    ),
    "mercy margin reached, match goes on, another goal": lambda: asked(
        START,
        *((2, 60 * n, Goal(side="home")) for n in (6, 7, 8, 9)),
        *FULL[1:3],
    ),
    "overtime goal with sudden-death on, then play continues": lambda: asked(
        *TO_KICKS[:5], (3, 60, Goal(side="home")), (3, 90, Goal(side="away"))
    ),
    "sportsmanship rating 6, 0, 4.5, empty": rating,
    "retract of an event that does not exist (yet)": lambda: asked(
        START, (1, 60, Retracted(target="nobody"))
    ),
    "retract of a retract": lambda: asked(
        START,
        (1, 60, Noted(text="")),
        (1, 61, Retracted(target="e1")),
        (1, 62, Retracted(target="e2")),
    ),
    "event id already used with other content": id_clash,
    "device sequence 5 after 3": gap,
    "device sequence 3 again, other content (restored phone, second tab)": fork,
    "phone clock goes back 3 h in the match (manual change or DST)": clock_back,
    "timestamp 0, negative, 2^63, NaN, text": timestamps,
    "event 2 days after certification": late,
    "hash chain broken": chain,
    "valid event type of a newer schema version": lambda: read_lines(changed(v=2)),
    "200 kB note text": lambda: read_lines(changed(type="note", p={"text": "x" * 200_000})),
    "10,000 events for one game": lambda: read_lines(*[changed()] * 10_000),
    "team has 5 players, rulebook minimum 6": lambda: asked(
        START, (1, 60, Counted(side="home", on_field=5))
    ),
    "captain's signature empty or refused": lambda: asked(
        *FULL, (2, 1200, SignRefused(by="away_captain", reason="the score")), stage="league"
    ),
}
"""What each sentence of the rows is when it is played."""
assert MOST_EVENTS < 10_000


def test_the_file_holds_rows_about_games() -> None:
    assert ROWS


@pytest.mark.parametrize("row", by_id(ROWS))
def test_an_entry_gets_the_outcome_the_row_names(row: Case) -> None:
    expected = Outcome(row["expected"]["outcome"], row["expected"]["code"])
    if expected.code in WAITING:
        pytest.skip(WAITING[expected.code])
    recipe = RECIPES.get(row["input"]["text"])
    if recipe is None:
        pytest.skip(f"no person has played this sentence yet: {row['input']['text']}")
    assert recipe() == expected
