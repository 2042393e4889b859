"""Writes a game down as a paper scorecard that somebody typed into a file."""

import json
from collections.abc import Iterator

from demo.account import Account
from demo.world import SIDES, Person

NOBODY_WEARS = 99
"""A number that no shirt of the league has."""


def scorecard(
    account: Account, *, minutes: bool, is_wrong: bool = False, unsigned: bool = False
) -> str:
    """Return cards/GAME.toml; with `is_wrong` a number on it is one that nobody wears.

    Without `minutes` it has the score of each half alone, as most cards do.
    """
    lines = ["schema = 1"]
    if account.was_played:
        lines += _played(account, minutes=minutes, unsigned=unsigned)
        lines += _cards(account, minutes=minutes, is_wrong=is_wrong)
        lines += _ratings(account)
        lines += _kicks(account) if account.kicks else []
    else:
        lines += _given_up(account)
    return "\n".join(lines) + "\n"


def _played(account: Account, *, minutes: bool, unsigned: bool) -> Iterator[str]:
    halves = [_score(account, period) for period in (1, 2)]
    yield f"periods = {json.dumps(halves)}"
    if account.ended in ("overtime", "kicks"):
        yield f"overtime = {json.dumps([_score(account, 3)])}"
    for side in SIDES:
        there = ", ".join(_there(account, one) for one in account.present[side])
        yield f"{side}_players = [{there}]"
    signed = ["home_captain", "official", *(() if unsigned else ("away_captain",))]
    yield f"signed = {json.dumps(signed)}"
    if unsigned:
        yield "\n[[refused]]"
        yield 'by = "away_captain"'
        yield f"reason = {_text('says the second goal was offside')}"
    for one in account.goals if minutes else ():
        yield "\n[[goals]]"
        yield f'side = "{one.side}"'
        yield f"number = {account.number(one.by)}"
        yield f"period = {one.period}"
        yield f"minute = {one.clock // 60 + 1}"


def _score(account: Account, period: int) -> str:
    home, away = account.score(period=period)
    return f"{home}-{away}"


def _there(account: Account, person: Person) -> str:
    number = account.number(person)
    return str(number) if person.number is not None else _text(f"{person.name}={number}")


def _cards(account: Account, *, minutes: bool, is_wrong: bool) -> Iterator[str]:
    for index, one in enumerate(account.shown):
        yield f"\n[[{one.colour}]]"
        yield f'side = "{one.side}"'
        yield f"number = {NOBODY_WEARS if is_wrong and not index else account.number(one.to)}"
        yield f"reason = {_text(one.reason)}"
        if one.second:
            yield "second_yellow = true"
        if minutes:
            yield f"period = {one.period}"
            yield f"minute = {one.clock // 60 + 1}"


def _ratings(account: Account) -> Iterator[str]:
    for side, value in account.ratings.items():
        yield "\n[[ratings]]"
        yield f'side = "{side}"'
        yield f"value = {float(value):.1f}"
        yield 'by = "official"'
        if side in account.why_low:
            yield f"reason = {_text(account.why_low[side])}"


def _kicks(account: Account) -> Iterator[str]:
    yield "\n[kicks]"
    yield 'first = "home"'
    for side in SIDES:
        taken = [one for one in account.kicks if one.side == side]
        yield f'{side} = "{"".join("o" if one.scored else "x" for one in taken)}"'


def _given_up(account: Account) -> Iterator[str]:
    if account.ended == "default":
        yield "\n[default]"
        yield f'by = "{account.by}"'
        yield "in_time = true"
        return
    yield "\n[forfeit]"
    yield f'by = "{account.by or "both"}"'
    yield 'why = "not_ready"'


def _text(value: str) -> str:
    """Return a text as TOML has it, which takes what JSON writes."""
    return json.dumps(value, ensure_ascii=False)
