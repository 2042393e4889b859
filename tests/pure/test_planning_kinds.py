"""How each kind of rule reads for everybody, one team and two, and what its parameters refuse."""

from datetime import time
from typing import Any

import pytest
from pydantic import ValidationError

from cases.tiny_season import rule
from wholeball.planning.kinds import KINDS
from wholeball.planning.rule import Games

SENTENCES: list[tuple[str, dict[str, Any], tuple[str, ...], str]] = [
    ("games_a_night", {"most": 1}, (), "Every team plays 1 game a night at most."),
    ("games_a_night", {"most": 2}, ("Ash",), "Ash plays 2 games a night at most."),
    (
        "games_a_night",
        {"most": 1},
        ("Ash", "Birch"),
        "Ash and Birch each play 1 game a night at most.",
    ),
    ("games_a_week", {"most": 2}, (), "Every team plays 2 games a week at most."),
    (
        "games_in_days",
        {"most": 2, "days": 7},
        ("Ash",),
        "Ash plays 2 games at most within any 7 days.",
    ),
    (
        "rest_days",
        {"days": 1},
        ("Ash", "Birch", "Cedar"),
        "Ash, Birch and Cedar each have 1 free day or more between games of two nights.",
    ),
    (
        "games_on",
        {"nights": ("2027-01-04",), "most": 0, "side": "first"},
        ("Ash",),
        "Ash plays no game as the side listed first on Monday 4 January.",
    ),
    (
        "games_on",
        {"nights": ("2027-01-04", "2027-01-05", "2027-01-06"), "most": 1},
        (),
        "Every team plays 1 game at most on Monday 4 January and 2 other nights.",
    ),
    ("double_header", {}, (), "Two games of a team on one night follow one another at once."),
    (
        "double_header",
        {"starts_between": 1},
        ("Ash", "Birch"),
        "Two games of Ash or Birch on one night have 1 start between them at most.",
    ),
    (
        "block",
        {"block": "Tuesday late", "weekday": "tuesday", "opens": "19:00", "closes": "22:00"},
        ("Ash",),
        "Ash plays in Tuesday late: Tuesday, 19:00 to 22:00.",
    ),
    (
        "absent",
        {"weekdays": ("monday", "friday"), "from": "19:00"},
        ("Ash", "Birch"),
        "Ash and Birch cannot play on Mondays and Fridays from 19:00 on.",
    ),
    ("absent", {"until": "19:00"}, (), "No team can play on any night before 19:00."),
    (
        "absent",
        {"nights": ("2027-01-04",), "from": "18:00", "until": "19:00"},
        ("Ash",),
        "Ash cannot play on Monday 4 January from 18:00 to 19:00.",
    ),
    (
        "length",
        {"minutes": 55},
        (),
        "A game has 55 minutes at least, with its turnover.",
    ),
    (
        "not_at",
        {"names": ("P1",), "nights": ("2027-01-04",), "from": "20:00"},
        (),
        "Game P1 never begins on Monday 4 January between 20:00 and 23:59.",
    ),
    (
        "not_at",
        {"names": ("P1", "P2")},
        (),
        "Games P1 and P2 never begin on any night.",
    ),
    ("never_at_once", {}, ("Ash", "Birch"), "Ash and Birch never play at once."),
    (
        "never_at_once",
        {"minutes": 90},
        ("Ash", "Birch"),
        "Ash and Birch start 90 minutes apart at least where they play on one night.",
    ),
    (
        "gap_between_repeats",
        {"days": 1},
        (),
        "Two teams meet again after 1 day at the earliest.",
    ),
    (
        "gap_between_repeats",
        {"days": 14},
        ("Ash", "Birch", "Cedar"),
        "Any two of Ash, Birch and Cedar meet again after 14 days at the earliest.",
    ),
    (
        "after",
        {"minutes": 75},
        (),
        "A game starts 75 minutes or more after the starts of those that bring its sides.",
    ),
    (
        "fixed",
        {"name": "P1", "night": "2027-01-04", "at": "18:00", "field": "F1"},
        (),
        "Game P1 is on Monday 4 January at 18:00, F1.",
    ),
    (
        "even_byes",
        {"most": 1},
        (),
        "Every team is idle as often as any other, 1 week more at most.",
    ),
]
WISHES: list[tuple[str, dict[str, Any], tuple[str, ...], str]] = [
    (
        "even_starts",
        {"which": "late"},
        (),
        "Every team plays late no more often than a fair share.",
    ),
    (
        "even_fields",
        {},
        ("Ash", "Birch"),
        "Ash and Birch each play on each field about as often as on any other.",
    ),
    (
        "next_to_each_other",
        {},
        ("Ash", "Birch"),
        "Ash and Birch play one after the other where they play on one night.",
    ),
    ("idle_week", {}, ("Ash",), "Ash plays every week."),
    (
        "round_by_round",
        {},
        (),
        "Rounds are played in order, one a week from the first on, as far as there are places.",
    ),
    ("no_gap", {}, (), "No start of a night stays empty before one with games."),
    ("open_night", {}, (), "As few nights as can be are opened."),
    ("open_start", {}, (), "As few starts as can be are opened."),
    (
        "listed_first",
        {"most": 1},
        (),
        "Every team is listed first as often as second, 1 apart at most.",
    ),
    (
        "absent",
        {"weekdays": ("monday",)},
        ("Ash",),
        "Ash would rather not play on Mondays.",
    ),
]


@pytest.mark.parametrize(
    ("kind", "params", "teams", "says", "cost"),
    [(*one, 0) for one in SENTENCES] + [(*one, 3) for one in WISHES],
)
def test_a_rule_reads_as_somebody_would_say_it(
    kind: str, params: dict[str, Any], teams: tuple[str, ...], says: str, cost: int
) -> None:
    assert KINDS[kind].sentence(rule(kind, *teams, cost=cost, **params)) == says


def test_every_kind_has_a_sentence_that_is_held() -> None:
    assert {one[0] for one in (*SENTENCES, *WISHES)} == set(KINDS)


@pytest.mark.parametrize(
    ("kind", "games", "params", "says"),
    [
        (
            "games_a_night",
            "league",
            {"most": 1},
            "Every team plays 1 league game a night at most.",
        ),
        (
            "length",
            "play_off",
            {"minutes": 75},
            "A play-off game has 75 minutes at least, with",
        ),
        ("rest_days", "play_off", {"days": 1}, "of two nights in the play-offs."),
        (
            "absent",
            "league",
            {"from": "20:00"},
            "No team can play in the league on any night from",
        ),
    ],
)
def test_a_rule_about_one_stage_says_so(
    kind: str, games: Games, params: dict[str, Any], says: str
) -> None:
    assert says in KINDS[kind].sentence(rule(kind, games=games, **params))


@pytest.mark.parametrize(
    ("kind", "params", "where"),
    [
        ("games_a_night", {"most": "1"}, "most"),
        ("games_a_night", {"most": True}, "most"),
        ("games_a_night", {"most": 1.0}, "most"),
        ("games_a_night", {"most": -1}, "most"),
        ("games_a_night", {}, "most"),
        ("games_a_night", {"most": 1, "moost": 1}, "moost"),
        ("games_in_days", {"most": 1, "days": 1}, "days"),
        ("rest_days", {"days": 0}, "days"),
        ("games_on", {"most": 1, "nights": ()}, "nights"),
        ("games_on", {"most": 1, "nights": ("04/01/2027",)}, "nights"),
        ("games_on", {"most": 1, "nights": ("2027-02-29",)}, "nights"),
        ("games_on", {"most": 1, "nights": (20270104,)}, "nights"),
        ("block", {"block": "B", "weekday": "Monday", "opens": "18:00", "closes": "20:00"}, "weekday"),
        ("block", {"block": "B", "weekday": "monday", "opens": 18, "closes": "20:00"}, "opens"),
        ("block", {"block": "B", "weekday": "monday", "opens": "18:00Z", "closes": "20:00"}, "opens"),
        ("block", {"block": "B", "weekday": "monday", "opens": "18:00", "closes": "18:00"}, "closes"),
        ("absent", {"from": "20:00", "until": "19:00"}, "until"),
        ("absent", {"from": "24:00"}, "from"),
        ("even_starts", {"which": "latest"}, "which"),
        ("not_at", {"names": ()}, "names"),
        ("fixed", {"name": "", "night": "2027-01-04", "at": "18:00"}, "name"),
    ],
)  # fmt: skip
def test_a_parameter_that_is_none_is_refused_where_it_stands(
    kind: str, params: dict[str, Any], where: str
) -> None:
    with pytest.raises(ValidationError) as refused:
        KINDS[kind].read(rule(kind, **params))
    assert {str(one["loc"][0]) for one in refused.value.errors()} == {where}


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_kind_refuses_what_is_none_of_its_parameters(kind: str) -> None:
    entry = KINDS[kind]
    with pytest.raises(ValueError, match="surprise"):
        entry.params.model_validate({"surprise": 1})


def test_times_are_read_as_people_write_them() -> None:
    params = KINDS["block"].read(
        rule("block", block="B", weekday="monday", opens="18:00", closes="21:30")
    )
    assert (params.opens, params.closes) == (time(18), time(21, 30))
