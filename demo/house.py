"""Has the house rules of the invented league: each number once, for its rulebook and the truth."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """The numbers that the season's truth is worked out from; minutes, goals, points, games."""

    half: int = 22
    overtime: int = 5
    kicks: int = 3
    mercy: tuple[tuple[int, int], ...] = ((7, 10), (5, 3))
    win: int = 3
    draw: int = 1
    most_of_difference: int = 4
    grace: int = 8
    forfeit_score: tuple[int, int] = (3, 0)
    default_score: tuple[int, int] = (1, 0)
    defaults: int = 1
    removed_after: int = 3
    fee: int = 25
    yellows: int = 3
    games_for_yellows: int = 1
    games_for_red: int = 1
    cap_after_red: Fraction = Fraction(3)
    reason_at: Fraction = Fraction(2)
    ratings_least: int = 3
    play_off_rating: Fraction = Fraction(3)
    given_forfeiting: Fraction = Fraction(3, 2)
    given_defaulting: Fraction = Fraction(4)
    given_ready: Fraction = Fraction(5)
    places: int = 2
    games_for_play_offs: int = 2
    roster_least: int = 8
    roster_most: int = 18
    found_within: int = 5


HOUSE: Final = House()
_TABLE: Final = re.compile(r"\[([a-z_.]+)\]")
_KEY: Final = re.compile(r"([a-z_]+) = ")


def house_rulebook(preset: str, name: str, rules: House) -> str:
    """Return a preset's rulebook with the house's values written over it, line by line."""
    left = {table: dict(values) for table, values in _changes(rules).items()}
    lines: list[str] = []
    table = ""
    for line in preset.splitlines():
        heading, key = _TABLE.match(line), _KEY.match(line)
        if heading:
            lines += _rest(left, table)
            table = heading[1]
        if key and table == "" and key[1] == "name":
            lines.append(f'name = "{name}"')
        elif key and key[1] in left.get(table, {}):
            lines.append(f"{key[1]} = {left[table].pop(key[1])}")
        else:
            lines.append(line)
    lines += _rest(left, table)
    for new in [one for one, values in left.items() if values]:
        lines += ["", f"[{new}]", *_rest(left, new)]
    return "\n".join(lines) + "\n"


def _rest(left: dict[str, dict[str, str]], table: str) -> list[str]:
    """Return the keys that a table lacked, before the blank line and comment of the next one."""
    values = left.get(table, {})
    found = [f"{key} = {value}" for key, value in values.items()]
    values.clear()
    return found


def _changes(rules: House) -> dict[str, dict[str, str]]:
    ladder = ", ".join(f"{{ lead = {a}, minutes_left = {b} }}" for a, b in rules.mercy)
    return {
        "game": {"minutes": str(rules.half)},
        "mercy": {"ladder": f"[{ladder}]"},
        "overtime": {"minutes": str(rules.overtime)},
        "kicks": {"each": str(rules.kicks)},
        "roster": {
            "maximum": str(rules.roster_most),
            "minimum": str(rules.roster_least),
            "additions_hours_before": "0",
        },
        "eligibility.found_later": {
            "then": '"forfeit"',
            "discovered_within_days": str(rules.found_within),
        },
        **_forfeits(rules),
        **_conduct(rules),
        **_tables(rules),
    }


def _forfeits(rules: House) -> dict[str, dict[str, str]]:
    return {
        "forfeit": {"score": _score(rules.forfeit_score), "in_difference": "false"},
        "forfeit.grace": {"minutes": str(rules.grace), "chosen_by": '"opponents"'},
        "forfeit.default": {
            "allowed": str(rules.defaults),
            "score": _score(rules.default_score),
            "in_difference": "false",
        },
        "forfeit.double": {"ref": '"H 10.5"', "then": '"both_lose"'},
        "forfeit.removal": {
            "after_forfeits": str(rules.removed_after),
            "results": '"annulled"',
        },
        "forfeit.fee": {
            "ref": '"H 10.6"',
            "kind": '"administrative"',
            "amount": str(rules.fee),
            "captain_waits": "true",
        },
    }


def _conduct(rules: House) -> dict[str, dict[str, str]]:
    return {
        "ratings": {
            "by": '"officials"',
            "scale": "{ low = 1, high = 5, step = 0.5 }",
            "reason_at_or_below": _decimal(rules.reason_at),
            "cap_after_sending_off": _decimal(rules.cap_after_red),
            "minimum_count": str(rules.ratings_least),
            "play_off_minimum": _decimal(rules.play_off_rating),
        },
        "ratings.given": {
            "forfeiting": _decimal(rules.given_forfeiting),
            "defaulting": _decimal(rules.given_defaulting),
            "ready": _decimal(rules.given_ready),
        },
        "discipline": {
            "cautions_for_suspension": str(rules.yellows),
            "caution_games": str(rules.games_for_yellows),
        },
        "discipline.red": {"games": str(rules.games_for_red), "until_meeting": "true"},
        "discipline.serving": {"games": '"played_only"', "breach": '"forfeit"'},
    }


def _tables(rules: House) -> dict[str, dict[str, str]]:
    criteria = (
        '["points", { among_level = ["h2h_points", "h2h_difference"], again = true }, '
        f'{{ capped_difference = {rules.most_of_difference} }}, "goals", "ratings_average"]'
    )
    return {
        "standings": {
            "points": f"{{ win = {rules.win}, draw = {rules.draw}, loss = 0, forfeit_loss = 0 }}",
            "criteria": criteria,
        },
        "play_offs": {
            "qualify": '"per_pool"',
            "places": str(rules.places),
            "unequal_pools": '"per_game"',
            "seeded_by": '"pool_place_then_record"',
            "same_pool": '"kept_apart_in_first_round"',
            "third_place": "true",
            "games_played_least": str(rules.games_for_play_offs),
        },
        "resumption": {"complete_after": '"three_quarters"', "before_that": '"resumed"'},
    }


def _decimal(value: Fraction) -> str:
    return f"{float(value):.1f}"


def _score(score: tuple[int, int]) -> str:
    return f"{{ winners = {score[0]}, losers = {score[1]} }}"
