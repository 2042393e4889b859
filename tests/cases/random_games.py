"""Makes games at random, likely ones and odd ones, that two folds can be held against."""

from random import Random
from typing import Any, Final

from wholeball.game.event import KICKS, Event, Moment
from wholeball.game.happenings import KINDS
from wholeball.rulebook.load import load

RULEBOOKS: Final = tuple(
    load(text.encode(), file="house.toml").rulebook
    for text in (
        'base = "laws-2025-26"\n',
        """base = "laws-2025-26"
        game.minutes = 10
        game.stoppages.lost_time = "not_added"
        mercy.ladder = [{ lead = 4, minutes_left = 8 }, { lead = 2, minutes_left = 2 }]
        ties = { league = "draw", play_off = "overtime_then_kicks" }
        overtime = { ends = "golden_goal", periods = 1, minutes = 3 }
        kicks = { each = 3 }
        cards.cautioned = { comes_off = "for_minutes", minutes = 4 }
        sides = { on_field = 8, minimum_to_start = 6, minimum_to_continue = 5 }
        """,
        """base = "laws-2025-26"
        game.minutes = 8
        game.periods = 4
        game.period_end = { at = "chance_played_out", chance = "in_or_by_penalty_area" }
        ties = { league = "overtime", play_off = "kicks" }
        overtime = { ends = "full_time", periods = 2, minutes = 3 }
        kicks = { each = 2, ends = "all_taken" }
        cards.cautions_for_red = 3
        cards.sent_off = { may_be_replaced = true, after_minutes = 3 }
        resumption = { complete_after = "half", before_that = "resumed", level_when_complete = "resumed" }
        forfeit.score = { winners = 4, losers = 0 }
        forfeit.played_if_worse = true
        forfeit.grace = { minutes = 5, chosen_by = "opponents", final = true, clock_runs = true }
        """,
        """base = "laws-2025-26"
        game.minutes = 10
        game.periods = 3
        game.stoppages.lost_time = "not_added"
        game.period_end.penalty_completed = false
        mercy.ladder = [{ lead = 3, minutes_left = 21 }, { lead = 1, minutes_left = 1 }]
        ties = { league = "kicks", play_off = "overtime" }
        overtime = { ends = "golden_goal", periods = 2, minutes = 5 }
        kicks = { each = 2, sudden_death = false, takers.yellow_carried = true }
        cards.cautions_for_red = 1
        resumption = { complete_after = "three_quarters", before_that = "annulled", broken_off_by_side = "forfeit" }
        forfeit.played_if_worse = false
        forfeit.double.then = "annulled"
        forfeit.default = { allowed = 0 }
        forfeit.grace = { minutes = 5, chosen_by = "always_waited", clock_runs = true }
        """,
    )
)


SIDES: Final = ("home", "away")
NUMBERS: Final = (None, 1, 2, 3, 4)
WHO: Final[dict[str, tuple[Any, ...]]] = {"side": SIDES, "number": NUMBERS}
SELDOM: Final = 2
PLAYS: Final[tuple[tuple[str, int, dict[str, tuple[Any, ...]]], ...]] = (
    ("goal", 40, {**WHO, "own": (*[False] * 9, True), "penalty": (*[False] * 9, True)}),
    ("caution", 10, WHO),
    ("sending_off", 3, WHO),
    ("play_stopped", 6, {"why": ("other",)}),
    ("play_restarted", 6, {}),
    ("counted", 4, {"side": SIDES, "on_field": tuple(range(3, 12))}),
    ("injury", 3, WHO),
    ("hold_began", SELDOM, {"why": ("thunder",)}),
    ("hold_ended", SELDOM, {"by": ("supervisor", "official")}),
    (
        "protest",
        SELDOM,
        {"side": SIDES, "about": ("judgement", "rule_misapplied"), "by": ("captain", "player")},
    ),
    ("time_up", SELDOM, {"chance": ("in_or_by_penalty_area", "anywhere")}),
    ("came_back", SELDOM, WHO),
    ("broken_off", SELDOM, {"why": ("weather",), "to_blame": (None, None, "home", "away")}),
    ("resumed", SELDOM, {}),
    ("substitution", SELDOM, {"side": SIDES, "off": NUMBERS, "on": NUMBERS}),
    ("head_injury", SELDOM, WHO),
    ("came_off", SELDOM, {**WHO, "why": ("caution", "bleeding", "other")}),
    ("goalkeeper", SELDOM, WHO),
)
"""What may be recorded in a period, how often, and the values of its keys."""
ASKED: Final = (
    *("after_end", "double_tap", "mercy", "not_in_play", "turn", "after_time", "before_start"),
    *("decided", "not_in_rulebook", "already_off", "unknown_player", "out_for_the_day"),
)
AMENDED: Final[dict[str, tuple[Any, ...]]] = {
    "side": SIDES,
    "number": (*NUMBERS, 100),
    "clock": tuple(range(0, 660, 60)),
    "period": (1, 2, 3),
}


def game_at_random(chance: Random, *, odd: float) -> tuple[Event, ...]:
    """Return a game; with `odd` 0 all comes in turn, with 1 nearly everything may come anywhere."""
    made: list[tuple[Moment, str, dict[str, Any]]] = []
    _start(made, chance)
    periods = chance.choice((2, 2, 2, 4, 3))
    for period in range(1, periods + 1):
        _period(made, chance, period, odd=odd)
    if chance.random() < 0.4:
        _kicks(made, chance, odd=odd)
    if chance.random() < 0.1:
        made.extend(_ending(chance, periods) for _ in range(chance.choice((1, 1, 2))))
    events = [_event(f"e{index}", *one) for index, one in enumerate(made)]
    events += _corrections(events, chance, odd=odd)
    if chance.random() < odd * 0.1:
        voids = tuple(f"e{chance.randrange(len(events) + 1)}" for _ in range(3))
        again = {"protest": None, "voids": voids}
        events.append(_event(f"c{len(events)}", Moment(0, 0), "replayed", again))
        if chance.random() < 0.3:
            back = {"target": events[-1].id}
            events.append(_event(f"c{len(events)}", Moment(1, 0), "retract", back))
    return tuple(events)


def _event(name: str, at: Moment, kind: str, keys: dict[str, Any]) -> Event:
    number = int(name.strip("ec"))
    return Event(name, at, (number, 0, "device", number), KINDS[kind](**keys))


def _start(made: list[tuple[Moment, str, dict[str, Any]]], chance: Random) -> None:
    if chance.random() < 0.3:
        chose = chance.choice(("end", "kick_off"))
        made.append((Moment(0, 0), "ends_chosen", {"winner": _side(chance), "chose": chose}))
    if chance.random() < 0.2:
        there = (1, 2, 3, 4, 5)[: chance.choice((3, 5))]
        checked = [{"side": "home", "number": number} for number in there]
        made.extend((Moment(0, 0), "checked_in", keys) for keys in checked)
    if chance.random() < 0.1:
        side = _side(chance)
        other = "home" if side == "away" else "away"
        made.append((Moment(0, 0), "short_at_start", {"side": side, "present": 3}))
        made.append(
            (Moment(0, 30), "wait_chosen", {"by": other, "waits": chance.random() < 0.7})
        )
        made.append((Moment(0, chance.choice((200, 300, 301))), "got_ready", {"side": side}))


def _period(
    made: list[tuple[Moment, str, dict[str, Any]]], chance: Random, period: int, *, odd: float
) -> None:
    length = chance.choice((480, 600, 180, 2700))
    if chance.random() >= odd * 0.1:
        kick_off = chance.choice((None, "home", "away"))
        made.append((Moment(period, 0), "period_started", {"kick_off": kick_off}))
    for _ in range(chance.randrange(12)):
        clock = chance.randrange(length + int(odd * 60))
        kind, keys = _play(chance, odd=odd)
        made.append((Moment(period, clock), kind, keys))
    if chance.random() >= odd * 0.1:
        late = chance.choice((0, 0, 30)) if odd else 0
        made.append((Moment(period, length + late), "period_ended", {}))


def _play(chance: Random, *, odd: float) -> tuple[str, dict[str, Any]]:
    weights = [weight * (odd if weight == SELDOM else 1) for _, weight, _ in PLAYS]
    kind, _, keys = chance.choices(PLAYS, weights)[0]
    return kind, {name: chance.choice(values) for name, values in keys.items()}


def _kicks(
    made: list[tuple[Moment, str, dict[str, Any]]], chance: Random, *, odd: float
) -> None:
    if chance.random() < 0.2:
        for side in SIDES:
            numbers = tuple(range(1, chance.choice((5, 5, 6))))
            made.append((Moment(KICKS, 0), "kickers", {"side": side, "numbers": numbers}))
    first = _side(chance)
    second = "home" if first == "away" else "away"
    for index in range(chance.randrange(14)):
        side = first if index % 2 == 0 else second
        if chance.random() < odd * 0.1:
            side = _side(chance)
        number = chance.choice((None, None, 1, 2, 3, 4, 5, 6, 7))
        keys = {"side": side, "number": number, "scored": chance.random() < 0.6}
        made.append((Moment(KICKS, index + 1), "kick", keys))


def _ending(chance: Random, periods: int) -> tuple[Moment, str, dict[str, Any]]:
    at = Moment(chance.randrange(periods + 1), chance.randrange(600))
    if chance.random() < 0.5:
        by = chance.choice(("home", "away", "both"))
        return at, "forfeit", {"by": by, "why": "other"}
    return at, "default", {"by": _side(chance), "in_time": chance.random() < 0.5}


def _corrections(events: list[Event], chance: Random, *, odd: float) -> list[Event]:
    made = []
    for index in range(len(events), len(events) + chance.randrange(1 + int(odd * 4))):
        target = f"e{chance.randrange(index + 2)}"
        kind = chance.choice(("retract", "disallow", "amend", "answer"))
        keys: dict[str, Any] = {"target": target}
        if kind == "amend":
            key = chance.choice(tuple(AMENDED))
            keys |= {"key": key, "value": chance.choice(AMENDED[key])}
        if kind == "answer":
            asked = chance.choice(ASKED)
            answer = chance.choice(("counts", "does_not_count", "as_it_is"))
            keys |= {"asked": asked, "answer": answer, "by": "supervisor"}
        made.append(_event(f"c{index}", Moment(1, 0), kind, keys))
    return made


def _side(chance: Random) -> str:
    return chance.choice(("home", "away"))
