"""Every game of the conformance cases comes to what was written down beforehand."""

from typing import Any

import pytest

from cases.conformance import Case, cases
from wholeball.game.plain import plain
from wholeball.game.play import play
from wholeball.game.rules import game_rules

CASES = cases()


def came_to(case: Case, *, is_backwards: bool = False) -> dict[str, Any]:
    events = tuple(reversed(case.events)) if is_backwards else case.events
    state = play(events, game_rules(case.book, case.stage))
    return plain(state if case.until is None else state.at(case.until))


def unlike(wanted: Any, found: Any, at: str) -> list[str]:
    """Name each place where what was found is not what was wanted, by the keys wanted."""
    if isinstance(wanted, dict) and isinstance(found, dict):
        return [
            line
            for key, value in wanted.items()
            for line in (
                unlike(value, found[key], f"{at}.{key}")
                if key in found
                else [f"{at} has no {key}"]
            )
        ]
    if isinstance(wanted, list) and isinstance(found, list) and len(wanted) == len(found):
        pairs = enumerate(zip(wanted, found, strict=True))
        return [line for n, (one, other) in pairs for line in unlike(one, other, f"{at}.{n}")]
    same = type(wanted) is type(found) and wanted == found
    return [] if same else [f"{at} is {found!r}, not {wanted!r}"]


def amiss(case: Case, state: dict[str, Any]) -> list[str]:
    lines = unlike(case.end, state, "end")
    for part, entries in case.among.items():
        lines += [
            f"{part} {state[part]!r} has no {entry!r}"
            for entry in entries
            if all(unlike(entry, one, part) for one in state[part])
        ]
    codes = {one["code"] for part in ("statements", "questions") for one in state[part]}
    lines += [f"{code} is there" for code in case.absent if code in codes]
    if "questions" not in {**case.end, **case.among} and state["questions"]:
        lines.append(f"questions are asked: {state['questions']!r}")
    return lines


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_game_comes_to_what_was_written_down(case: Case) -> None:
    assert amiss(case, came_to(case)) == []


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_game_comes_to_the_same_in_whatever_order_its_events_arrive(case: Case) -> None:
    assert came_to(case, is_backwards=True) == came_to(case)


def test_each_case_has_a_name_of_its_own_and_says_what_must_come() -> None:
    names = [str(case) for case in CASES]
    assert len(set(names)) == len(names)
    assert [str(case) for case in CASES if not case.end and not case.among] == []


def test_there_are_cases_to_run() -> None:
    assert len(CASES) >= 130


@pytest.mark.parametrize(
    ("wanted", "found", "lines"),
    [
        ({"score": [1, 0]}, {"score": [1, 0], "winner": None}, []),
        ({"score": [1, 0]}, {"score": [1, 1]}, ["end.score.1 is 1, not 0"]),
        ({"goals": []}, {"goals": [{"event": "g"}]}, ["end.goals is [{'event': 'g'}], not []"]),
        ({"kicks": None}, {"kicks": {}}, ["end.kicks is {}, not None"]),
        ({"own": True}, {"own": 1}, ["end.own is 1, not True"]),
        ({"score": [1, 0]}, {}, ["end has no score"]),
    ],
)
def test_a_part_that_is_not_as_wanted_is_named(
    wanted: dict[str, Any], found: dict[str, Any], lines: list[str]
) -> None:
    assert unlike(wanted, found, "end") == lines
