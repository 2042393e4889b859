"""Common practice: what campus leagues set can be said, as whole tables and one by one."""

import tomllib
from decimal import Decimal
from typing import Any, Final

import pytest

from wholeball.kernel.length import Length, length
from wholeball.kernel.toml import frozen
from wholeball.rulebook.book import Path, Rulebook, values
from wholeball.rulebook.load import load
from wholeball.rulebook.tables.time import MercyStep
from wholeball.rulebook.value import Article

BASE: Final = 'base = "laws-2025-26"\n'
# One league's usual values; common practice, no source. No preset has them.
NINES: Final = """
base = "laws-2025-26"
name = "Nines"
source = "common practice, no source"

[sides]
on_field = 9
minimum_to_start = 5
minimum_to_continue = 5

[game]
minutes = 20
interval_minutes = 5

[game.stoppages]
lost_time = "not_added"

[game.period_end]
at = "chance_played_out"
chance = "in_or_by_penalty_area"

[ends]
decided_by = "number_guessed"
guesser = "visiting_captain"

[ties]
league = "draw"
play_off = "overtime_then_kicks"

[overtime]
ends = "golden_goal"
periods = 1
minutes = 3
interval_minutes = 0

[kicks]
each = 5

[mercy]
ladder = [{ lead = 15, minutes_left = 5 }, { lead = 10, minutes_left = 2 }]

[goalkeeper.hold]
seconds = 10

[free_kick]
distance = "10 yd"
distance_given = "on_request"

[throw_in.not_entering]
first = "retake"
second = "throw_in"

[injury]
leaves = "until_next_dead_ball"
goalkeeper_exempt = true
"""
TABLES: Final[dict[Path, dict[str, Any]]] = {
    "sides": {
        "on_field": 9,
        "minimum_to_start": 5,
        "minimum_to_continue": 5,
        "goalkeeper": "required",
    },
    "game": {
        "periods": 2,
        "minutes": 20,
        "interval_minutes": 5,
        "clock": "running",
        "counts": "up",
    },
    "game.stoppages": {"clock_stops_for": (), "lost_time": "not_added"},
    "game.period_end": {
        "at": "chance_played_out",
        "chance": "in_or_by_penalty_area",
        "penalty_completed": True,
    },
    "ends": {
        "decided_by": "number_guessed",
        "guesser": "visiting_captain",
        "winner_chooses": "end_or_kick_off",
        "change_ends": True,
    },
    "ties": {"league": "draw", "play_off": "overtime_then_kicks"},
    "overtime": {"ends": "golden_goal", "periods": 1, "minutes": 3, "interval_minutes": 0},
    "kicks": {"each": 5, "sudden_death": True, "ends": "as_soon_as_decided"},
    "mercy": {
        "ladder": (MercyStep(lead=15, minutes_left=5), MercyStep(lead=10, minutes_left=2))
    },
    "goalkeeper.hold": {"seconds": 10, "then": "corner_kick", "shown_seconds": 5},
    "free_kick": {
        "kinds": "direct_and_indirect",
        "distance": length("10 yd"),
        "distance_given": "on_request",
    },
    "throw_in.not_entering": {"first": "retake", "second": "throw_in"},
    "injury": {
        "leaves": "until_next_dead_ball",
        "goalkeeper_exempt": True,
        "off_after_restart_seconds": 0,
        "bleeding": "off_until_stopped_and_covered",
        "suspected_head_injury": "out_for_the_day",
    },
}
# What a league may set otherwise, one thing at a time: the table, what is written in it.
SAYABLE: Final[list[tuple[Path, dict[str, str]]]] = [
    ("equipment", {"required": '["shirt", "shinguards"]', "forbidden": '["metal_studs"]'}),
    ("equipment.exceptions", {"medical": '"allowed_if_taped"', "religious": '"allowed"'}),
    ("sides.mixed", {"women_least": "4", "men_least": "4", "short": '"plays_short"'}),
    ("sides.mixed", {"difference_most": "1", "goalkeeper_counts": "true"}),
    ("roster", {"maximum": "18", "minimum": "9", "teams_each": "1"}),
    ("roster", {"additions_until": '"last_regular_week"', "additions_hours_before": "2"}),
    ("roster.club_players", {"most": "2", "counted": '["club", "varsity"]'}),
    ("game", {"clock": '"running"', "counts": '"down"'}),
    ("game.stoppages", {"clock_stops_for": '["goal", "sending_off", "penalty", "injury"]'}),
    ("game.period_end", {"at": '"time"', "chance": '"none"'}),
    ("ends", {"decided_by": '"coin"', "guesser": '"home_captain"'}),
    ("offside", {"played": "false"}),
    ("offside", {"from_line": '"penalty_area_line"'}),
    ("goalkeeper.hold", {"seconds": "6", "then": '"indirect_free_kick"'}),
    ("goalkeeper.distribution", {"past_halfway": '"not_in_the_air"'}),
    ("throw_in", {"method": '"kick_in"'}),
    ("throw_in.misplayed", {"first": '"retake"', "second": '"throw_in"'}),
    ("goal_kick", {"must_leave_area": "true", "not_leaving": '"retake"'}),
    ("free_kick", {"distance": '"6 yd"', "distance_given": '"always"'}),
    ("free_kick.near_goal", {"spot": '"penalty_mark"'}),
    ("slide_tackle", {"allowed": "false", "then": '"direct_free_kick"', "caution": "true"}),
    ("substitution", {"most": '"no_limit"', "again": "true", "when": '"own_restarts"'}),
    ("injury", {"leaves": '"may_stay"'}),
    ("cards.cautioned", {"comes_off": '"for_minutes"', "minutes": "5"}),
    ("cards.cautioned", {"comes_off": '"until_replaced"', "may_be_replaced": "true"}),
    ("cards.sent_off", {"may_be_replaced": "true", "after_minutes": "2"}),
    ("forfeit", {"score": "{ winners = 1, losers = 0 }", "in_difference": "false"}),
    ("forfeit.grace", {"minutes": "10", "chosen_by": '"opponents"', "final": "true"}),
    ("forfeit.default", {"notice_by": "12:00:00", "notice_day": '"same_day"', "allowed": "1"}),
    ("forfeit.double", {"then": '"annulled"'}),
    ("forfeit.removal", {"after_forfeits": "2", "results": '"annulled"'}),
    ("ties", {"league": '"draw"', "play_off": '"kicks"'}),
    ("overtime", {"ends": '"full_time"', "periods": "2", "minutes": "5"}),
    ("kicks", {"each": "3", "sudden_death": "true"}),
    ("kicks.takers", {"who": '"whole_roster_present"', "equal_numbers": '"not_asked"'}),
    ("ratings", {"by": '"opponents"', "minimum_count": "3", "play_off_minimum": "3.5"}),
    ("ratings.given", {"forfeiting": "1", "defaulting": "3", "ready": "5"}),
    ("discipline", {"cautions_for_suspension": "3", "caution_games": "1"}),
    ("discipline.red", {"games": "1", "until_meeting": "true", "second_games": "5"}),
    ("discipline.serving", {"games": '"any_scheduled"', "breach": '"forfeit"'}),
    ("standings", {"criteria": '["points", "wins", "difference"]', "last_resort": '"lots"'}),
    ("play_offs", {"qualify": '"per_pool"', "places": "2", "third_place": "true"}),
    ("protests", {"about": '["eligibility"]', "by": '"captain"', "fee": "10"}),
    ("resumption", {"complete_after": '"half"', "before_that": '"resumed"'}),
    ("crew", {"size": "2", "roles": '["lead", "trail"]', "system": '"dual"'}),
]


def read(text: str) -> Rulebook:
    loaded = load(text.encode(), file="house.toml")
    assert loaded.remarks == ()
    return loaded.rulebook


@pytest.mark.parametrize("path", list(TABLES))
def test_nines_of_two_twenties_are_a_rulebook_table_by_table(path: Path) -> None:
    assert values(read(NINES).article(path)) == TABLES[path]


def test_nines_differ_from_the_laws_in_these_tables_only() -> None:
    laws = read(BASE)
    book = read(NINES)
    changed = {
        path for path, one in book.articles() if values(one) != values(laws.article(path))
    }
    assert changed == set(TABLES) - {"kicks", "ties"}


def toml(path: Path, said: dict[str, str]) -> str:
    return "\n".join([f"[{path}]", *toml_lines(said)])


def toml_lines(said: dict[str, str]) -> list[str]:
    return [f"{key} = {value}" for key, value in said.items()]


@pytest.mark.parametrize(("path", "said"), SAYABLE, ids=str)
def test_it_can_be_said_on_its_own_and_changes_nothing_else(
    path: Path, said: dict[str, str]
) -> None:
    laws, book = read(BASE), read(BASE + toml(path, said))
    meant = frozen(tomllib.loads("\n".join(toml_lines(said)), parse_float=Decimal))
    assert plain(book.article(path)) == {**plain(laws.article(path)), **meant}
    changed = {
        other for other, one in book.articles() if values(one) != values(laws.article(other))
    }
    assert changed <= {path}


def plain(article: Article) -> dict[str, Any]:
    """Return an article's values as a TOML file holds them."""
    dumped = article.model_dump()
    return {
        key: str(value) if isinstance(value, Length) else dumped[key]
        for key, value in values(article).items()
    }


def test_a_mixed_game_is_decided_by_mixed_kicks() -> None:
    book = read(
        BASE
        + toml("sides.mixed", {"women_least": "3", "men_least": "3"})
        + "\n"
        + toml("kicks.takers", {"order": '"genders_alternate"'})
    )
    assert book.kicks.takers.order == "genders_alternate"
    assert book.sides.mixed.declared == "self_privately"


def test_an_unlikely_value_is_taken_when_it_is_confirmed() -> None:
    said = {"points": "{ draw = 4 }", "confirm": "true"}
    assert read(BASE + toml("standings", said)).standings.points.draw == 4
