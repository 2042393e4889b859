"""Editions of the Laws: what each says, what it changed, and how far it was read."""

from datetime import date
from importlib.resources import files
from typing import Any

import pytest

from wholeball.kernel.length import IMPERIAL, Length, System
from wholeball.kernel.toml import read_toml
from wholeball.rulebook.book import Rulebook, values
from wholeball.rulebook.editions import edition, edition_values, editions
from wholeball.rulebook.overlay import PASSING

NOTHING_CHANGED = ("laws-2017-18", "laws-2018-19", "laws-2022-23")
SYSTEMS: tuple[System, System] = ("metric", "imperial")
HEAD = ("schema", "base", "name", "source", "edition")
DELTAS = [one.key for one in editions() if one.base != "left_open"]

# IFAB Laws of the Game of each edition, Circular 31 and the reports of 2026/27: what changed,
# as (before, after).
CHANGES: dict[str, dict[str, tuple[object, object]]] = {
    "laws-2017-18": {},
    "laws-2018-19": {},
    "laws-2019-20": {
        "substitution.leaving.by": ("anywhere", "nearest_point"),
        "ends.winner_chooses": ("end", "end_or_kick_off"),
        "dropped_ball.to": ("contested", "last_touch"),
        "dropped_ball.in_penalty_area": ("contested", "defending_goalkeeper"),
        "dropped_ball.spot": ("where_stopped", "last_touch"),
        "dropped_ball.distance": ("0 m", "4 m (4.5 yd)"),
        "ball_off_official.then": ("play_on", "dropped_ball_in_three_cases"),
        "goalkeeper.return_pass.after_clearing": ("offence", "allowed"),
        "goalkeeper.distribution.direct_goal": (True, False),
        "handball.before_goal": ("deliberate_only", "own_or_team_mates_goal"),
        "cards.team_officials.shown": (False, True),
        "cards.team_officials.unidentified": ("nobody", "senior_coach"),
        "free_kick.wall.players": (0, 3),
        "free_kick.wall.distance": ("0 m", "1 m (1 yd)"),
        "free_kick.own_area.must_leave_area": (True, False),
        "penalty.goalkeeper.on_line": ("both_feet", "part_of_one_foot"),
        "penalty.goalkeeper.with_kicker": ("retake", "kicker_penalised_if_goal"),
        "goal_kick.must_leave_area": (True, False),
    },
    "laws-2020-21": {
        "kicks.takers.yellow_carried": (True, False),
        "dropped_ball.too_close": ("nothing", "caution"),
        "handball.arm_ends": ("shoulder", "bottom_of_armpit"),
        "advantage.cancels_caution": (False, True),
        "advantage.quick_kick_cancels_caution": (False, True),
        "penalty.goalkeeper.first_offence": ("caution", "warning"),
        "penalty.goalkeeper.missed_unaffected": ("retake", "no_retake"),
        "penalty.goalkeeper.with_kicker": ("kicker_penalised_if_goal", "kicker_penalised"),
    },
    "laws-2021-22": {
        "handball.before_goal": ("own_or_team_mates_goal", "own_immediate_goal"),
    },
    "laws-2022-23": {},
    "laws-2023-24": {
        "extra_persons.goal_stands": ("unless_on_field", "unless_interfered"),
    },
    "laws-2024-25": {
        "equipment.shinguards.size": ("reasonable_protection", "player_responsible"),
        "captain.armband": ("optional", "required"),
        "substitution.concussion_extra": ("not_used", "optional"),
        "handball.not_deliberate_with_penalty": ("as_deliberate", "as_other_fouls"),
        "penalty.ball": ("on_mark", "touches_or_overhangs_centre"),
        "penalty.encroachment.punished": ("always", "with_impact"),
    },
    "laws-2024-25-circular-31": {
        "penalty.double_touch.goal": ("indirect_free_kick", "retake"),
    },
    "laws-2025-26": {
        "captain.only_captain_approaches": ("not_used", "optional"),
        "dropped_ball.to": ("last_touch", "clear_possession_or_last_touch"),
        "dropped_ball.spot": ("last_touch", "where_stopped"),
        "offside.goalkeeper_throw": ("first_contact", "last_contact"),
        "goalkeeper.hold.seconds": (6, 8),
        "goalkeeper.hold.then": ("indirect_free_kick", "corner_kick"),
        "goalkeeper.hold.shown_seconds": (0, 5),
        "extra_persons.touch_leaving_ball": ("free_kick_and_caution", "indirect_free_kick"),
    },
    "laws-2026-27": {
        "equipment.exceptions.covered_accessories": (False, True),
        "substitution.leaving.seconds": ("no_limit", 10),
        "substitution.leaving.too_slow_waits_seconds": (0, 60),
        "injury.off_after_restart_seconds": (0, 60),
        "advantage.incorrect_restart": (False, True),
        "throw_in.countdown.seconds": (0, 5),
        "throw_in.countdown.then": ("none", "throw_in"),
        "goal_kick.countdown.seconds": (0, 5),
        "goal_kick.countdown.then": ("none", "corner_kick"),
    },
}


def delta(key: str) -> dict[str, Any]:
    """Return the tables of one edition's file."""
    name = f"{key}.toml"
    said = read_toml(files("wholeball.rulebook.laws").joinpath(name).read_bytes(), file=name)
    return {table: value for table, value in said.items() if table not in HEAD}


def flat(book: Rulebook) -> dict[str, object]:
    """Return every value of a rulebook by path and key, its lengths as text."""
    return {
        f"{path}.{name}": str(value) if isinstance(value, Length) else value
        for path, article in book.articles()
        for name, value in values(article).items()
    }


def changes(key: str, base: str) -> dict[str, tuple[object, object]]:
    before, after = flat(edition(base)), flat(edition(key))
    return {name: (before[name], after[name]) for name in after if before[name] != after[name]}


def idle(under: dict[str, Any], over: dict[str, Any], path: str = "") -> list[str]:
    """Return the keys of a delta that say what the edition beneath says already.

    Notes are left out: an article that changes loses its note, so that one may be said again.
    """
    found = []
    for name, value in over.items():
        if name in PASSING:
            continue
        below = under.get(name)
        if isinstance(value, dict) and isinstance(below, dict):
            found += idle(below, value, f"{path}{name}.")
        elif value == (list(below) if isinstance(below, tuple) else below):
            found.append(f"{path}{name}")
    return found


def test_editions_stand_in_order_of_their_first_day() -> None:
    assert [(one.key, one.valid_from) for one in editions()] == [
        ("laws-2016-17", date(2016, 6, 1)),
        ("laws-2017-18", date(2017, 6, 1)),
        ("laws-2018-19", date(2018, 6, 1)),
        ("laws-2019-20", date(2019, 6, 1)),
        ("laws-2020-21", date(2020, 6, 1)),
        ("laws-2021-22", date(2021, 7, 1)),
        ("laws-2022-23", date(2022, 7, 1)),
        ("laws-2023-24", date(2023, 7, 1)),
        ("laws-2024-25", date(2024, 7, 1)),
        ("laws-2024-25-circular-31", date(2025, 7, 1)),
        ("laws-2025-26", date(2025, 7, 1)),
        ("laws-2026-27", date(2026, 7, 1)),
    ]


def test_each_edition_stands_on_the_one_before_it() -> None:
    keys = [one.key for one in editions()]
    assert [one.base for one in editions()] == ["left_open", *keys[:-1]]


@pytest.mark.parametrize("one", editions(), ids=lambda one: one.key)
def test_each_edition_says_how_far_it_was_read(one: Any) -> None:
    assert one.status in {"verified", "from memory", "partly verified"}
    assert one.note


@pytest.mark.parametrize("key", DELTAS)
def test_each_edition_changes_what_its_summary_lists_and_nothing_else(key: str) -> None:
    base = next(one.base for one in editions() if one.key == key)
    assert changes(key, base) == CHANGES[key]


@pytest.mark.parametrize("key", DELTAS)
def test_an_edition_is_empty_only_where_that_is_declared(key: str) -> None:
    assert (delta(key) == {}) == (key in NOTHING_CHANGED)


@pytest.mark.parametrize("key", DELTAS)
def test_no_edition_repeats_what_the_one_beneath_says(key: str) -> None:
    base = next(one.base for one in editions() if one.key == key)
    assert idle(edition_values(base), delta(key)) == []


def test_a_repeated_value_reference_and_list_are_found_idle() -> None:
    beneath = edition_values("laws-2025-26")
    repeated = {
        "corner": {"direct_goal": True, "distance": "8 m"},
        "goalkeeper": {"hold": {"ref": "Law 12.2", "seconds": 9}},
        "protests": {"about": []},
    }
    assert idle(beneath, repeated) == [
        "corner.direct_goal",
        "goalkeeper.hold.ref",
        "protests.about",
    ]


@pytest.mark.parametrize("one", editions(), ids=lambda one: one.key)
def test_every_article_is_law_or_left_open_with_reference_and_source(one: Any) -> None:
    about = {
        (article.kind, article.ref.startswith("Law"), bool(article.source), article.why)
        for _, article in edition(one.key).articles()
    }
    assert about == {("law", True, True, ""), ("administrative", False, True, "")}


def test_what_the_laws_leave_open_is_what_left_open_holds() -> None:
    administrative = {
        path.partition(".")[0]
        for path, article in edition("laws-2025-26").articles()
        if article.kind == "administrative"
    }
    assert administrative == set(delta("left_open"))


@pytest.mark.parametrize("key", [key for key in DELTAS if key not in NOTHING_CHANGED])
def test_an_article_that_changed_gives_a_new_source(key: str) -> None:
    base = edition(next(one.base for one in editions() if one.key == key))
    changed = {name.rpartition(".")[0] for name in CHANGES[key]}
    kept = {p for p in changed if base.article(p).source == edition(key).article(p).source}
    assert kept == set()


def test_an_article_that_changed_keeps_its_reference_where_it_is_not_restated() -> None:
    hold = edition("laws-2025-26").goalkeeper.hold
    assert (hold.ref, hold.kind) == ("Law 12.2", "law")


def test_a_goalkeeper_had_6_seconds_until_2024_25_and_has_8_since() -> None:
    held = [values(edition(f"laws-{key}").goalkeeper.hold) for key in ("2024-25", "2025-26")]
    assert held == [
        {"seconds": 6, "then": "indirect_free_kick", "shown_seconds": 0},
        {"seconds": 8, "then": "corner_kick", "shown_seconds": 5},
    ]


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("2018-19", ("contested", "contested", "where_stopped", "0 m", "nothing")),
        (
            "2019-20",
            ("last_touch", "defending_goalkeeper", "last_touch", "4 m (4.5 yd)", "nothing"),
        ),
        (
            "2020-21",
            ("last_touch", "defending_goalkeeper", "last_touch", "4 m (4.5 yd)", "caution"),
        ),
        (
            "2024-25",
            ("last_touch", "defending_goalkeeper", "last_touch", "4 m (4.5 yd)", "caution"),
        ),
        (
            "2025-26",
            (
                "clear_possession_or_last_touch",
                "defending_goalkeeper",
                "where_stopped",
                "4 m (4.5 yd)",
                "caution",
            ),
        ),
    ],
)
def test_the_dropped_ball_of_each_time(key: str, said: tuple[str, ...]) -> None:
    dropped = values(edition(f"laws-{key}").dropped_ball)
    names = ("to", "in_penalty_area", "spot", "distance", "too_close")
    assert {name: str(value) for name, value in dropped.items()} == dict(
        zip(names, said, strict=True)
    )


@pytest.mark.parametrize(("key", "must"), [("2018-19", True), ("2019-20", False)])
def test_the_goal_kick_had_to_leave_the_area_until_2018_19(key: str, *, must: bool) -> None:
    assert values(edition(f"laws-{key}").goal_kick) == {
        "taken": "kicked",
        "must_leave_area": must,
        "not_leaving": "retake",
        "may_pass_halfway": True,
        "too_far": "indirect_free_kick",
        "direct_goal": True,
    }


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("2018-19", ("shoulder", "deliberate_only", "as_deliberate")),
        ("2019-20", ("shoulder", "own_or_team_mates_goal", "as_deliberate")),
        ("2020-21", ("bottom_of_armpit", "own_or_team_mates_goal", "as_deliberate")),
        ("2021-22", ("bottom_of_armpit", "own_immediate_goal", "as_deliberate")),
        ("2023-24", ("bottom_of_armpit", "own_immediate_goal", "as_deliberate")),
        ("2024-25", ("bottom_of_armpit", "own_immediate_goal", "as_other_fouls")),
    ],
)
def test_handling_of_each_time(key: str, said: tuple[str, str, str]) -> None:
    assert tuple(values(edition(f"laws-{key}").handball).values()) == said


@pytest.mark.parametrize(
    ("key", "said"),
    [
        ("2018-19", ("both_feet", "caution", "retake", "retake")),
        ("2019-20", ("part_of_one_foot", "caution", "retake", "kicker_penalised_if_goal")),
        ("2020-21", ("part_of_one_foot", "warning", "no_retake", "kicker_penalised")),
        ("2026-27", ("part_of_one_foot", "warning", "no_retake", "kicker_penalised")),
    ],
)
def test_the_goalkeeper_at_a_penalty_kick_of_each_time(
    key: str, said: tuple[str, str, str, str]
) -> None:
    assert tuple(values(edition(f"laws-{key}").penalty.goalkeeper).values()) == said


@pytest.mark.parametrize(
    ("key", "punished", "goal", "no_goal"),
    [
        ("laws-2023-24", "always", "indirect_free_kick", "indirect_free_kick"),
        ("laws-2024-25", "with_impact", "indirect_free_kick", "indirect_free_kick"),
        ("laws-2024-25-circular-31", "with_impact", "retake", "indirect_free_kick"),
        ("laws-2025-26", "with_impact", "retake", "indirect_free_kick"),
    ],
)
def test_encroachment_and_the_second_touch_of_each_time(
    key: str, punished: str, goal: str, no_goal: str
) -> None:
    penalty = edition(key).penalty
    assert (values(penalty.encroachment), values(penalty.double_touch)) == (
        {"punished": punished},
        {"goal": goal, "no_goal": no_goal},
    )


def test_2026_27_leaves_the_captain_rule_optional_until_2027() -> None:
    latest = editions()[-1]
    assert edition(latest.key).captain.only_captain_approaches == "optional"
    assert (latest.status, "1 July 2027" in latest.note) == ("partly verified", True)


def test_every_length_of_the_laws_is_printed_in_both_systems() -> None:
    book = edition("laws-2025-26")
    lengths = {
        f"{path}.{name}": value
        for path, article in book.articles()
        for name, value in values(article).items()
        if isinstance(value, Length)
    }
    single = {
        name
        for name, value in lengths.items()
        if value.other is None
        or value.first.unit in IMPERIAL
        or value.other.unit not in IMPERIAL
    }
    assert (len(lengths), single) == (25, set())


def test_the_field_that_is_drawn_keeps_law_1_3_and_law_1_4_in_both_systems() -> None:
    field = edition("laws-2025-26").field
    drawn = (field.length, field.width)
    assert [str(side) for side in drawn] == ["105 m (115 yd)", "68 m (74 yd)"]
    metres = [side.measured("metric").amount for side in drawn]
    yards = [side.measured("imperial").amount for side in drawn]
    assert (100 <= metres[0] <= 110, 64 <= metres[1] <= 75) == (True, True)
    assert (110 <= yards[0] <= 120, 70 <= yards[1] <= 80) == (True, True)
    limits = field.limits
    for system in SYSTEMS:
        least, drawn_length, most = (
            side.measured(system).amount
            for side in (limits.length_least, field.length, limits.length_most)
        )
        assert least <= drawn_length <= most


@pytest.mark.parametrize("one", editions(), ids=lambda one: one.key)
def test_safety_articles_leave_the_last_word_to_local_policy(one: Any) -> None:
    book = edition(one.key)
    assert (book.field.goal.anchored, book.injury.suspected_head_injury) == (
        True,
        "out_for_the_day",
    )
    for note in (book.field.goal.note, book.injury.note):
        assert "local policy" in note.lower()


def test_a_league_without_a_rule_of_its_own_has_no_mercy_no_ratings_and_3_1_0() -> None:
    book = edition("laws-2025-26")
    assert (book.mercy.ladder, book.ratings.by) == ((), "nobody")
    assert values(book.standings) == {
        "points": book.standings.points,
        "criteria": ("points", "difference", "goals"),
        "last_resort": "coordinator",
    }
    assert book.standings.points.model_dump() == {
        "win": 3,
        "draw": 1,
        "loss": 0,
        "forfeit_loss": 0,
    }
