"""A rulebook that is wrong is refused with each mistake named once, where it stands."""

from typing import get_args

import pytest

from cases.refused_rulebooks import faults_of
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.nearest import choices
from wholeball.rulebook.criteria import Figure
from wholeball.rulebook.editions import edition_keys
from wholeball.rulebook.keys import SCHEMA_OF_RULEBOOK
from wholeball.rulebook.tables.time import Game

EDITIONS = ", ".join(edition_keys())
TOP = ", ".join(SCHEMA_OF_RULEBOOK.top_keys)
LENGTH = 'Give a number, a space and a unit (mm, cm, m, in, ft, yd), such as "10 yd".'
READABLE = "letters, digits, signs, spaces and emoji of any script"
CRITERION = (
    "a criterion is a figure's name or a table with one of among_level, capped_difference, "
    "conduct, discipline_points"
)


def fault(
    code: str,
    line: int,
    article: str | None,
    says: str,
    told: tuple[str | None, str | None, str],
) -> Fault:
    place = Place(file="house.toml", line=line, article=article)
    value, allowed, cure = told
    return Fault(code=code, place=place, says=says, value=value, allowed=allowed, cure=cure)


WHOLE = [
    (
        "[game]\nperiods = 2\nminutes = 61",
        fault("range", 3, "game", "[game] minutes is 61.", ("61", "1 to 60", "Give 1 to 60.")),
    ),
    (
        "[game]\nminutes = 22.5",
        fault(
            "type",
            2,
            "game",
            "[game] minutes is 22.5.",
            ("22.5", "a whole number", "Give a whole number."),
        ),
    ),
    (
        'goalkeeper.hold.seconds = "8"',
        fault(
            "type",
            1,
            "goalkeeper.hold",
            '[goalkeeper.hold] seconds is "8".',
            ('"8"', "a whole number", "Write seconds = 8, without quotes."),
        ),
    ),
    (
        '[roster]\nmaximum = "15"',
        fault(
            "type",
            2,
            "roster",
            '[roster] maximum is "15".',
            ('"15"', "a whole number, or no_limit", "Write 15, without quotes."),
        ),
    ),
    (
        '[roster]\nmaximum = "unlimited"',
        fault(
            "unknown_value",
            2,
            "roster",
            '[roster] maximum is "unlimited".',
            (
                '"unlimited"',
                "a whole number, or no_limit",
                "Give a whole number, or no_limit.",
            ),
        ),
    ),
    (
        "[discipline]\ncautions_for_suspension = 0",
        fault(
            "range",
            2,
            "discipline",
            "[discipline] cautions_for_suspension is 0.",
            ("0", "1 to 999", "Give 1 to 999."),
        ),
    ),
    (
        '[free_kick]\ndistance = "10yd"',
        fault(
            "type",
            2,
            "free_kick",
            '[free_kick] distance is "10yd": it is no length.',
            ('"10yd"', "it is no length", LENGTH),
        ),
    ),
    (
        "[free_kick]\ndistance = 10",
        fault(
            "type",
            2,
            "free_kick",
            "[free_kick] distance is 10: a length is text.",
            ("10", "a length is text", 'Write it with its unit, such as "10 yd".'),
        ),
    ),
    (
        "[forfeit.default]\nnotice_by = 2026-09-15",
        fault(
            "type",
            2,
            "forfeit.default",
            "[forfeit.default] notice_by is 2026-09-15.",
            ("2026-09-15", "a time such as 12:00:00", "Give a time such as 12:00:00."),
        ),
    ),
    (
        "[field.goal]\nanchored = false",
        fault(
            "range",
            2,
            "field.goal",
            "[field.goal] anchored is false.",
            ("false", "true", "Use one of: true."),
        ),
    ),
    (
        "[game]\nclock = true",
        fault(
            "type",
            2,
            "game",
            "[game] clock is true.",
            ("true", "running, stopped", "Use one of: running, stopped."),
        ),
    ),
    (
        'base = "laws-2025-62"',
        fault(
            "unknown_value",
            1,
            None,
            'base is "laws-2025-62", which is no edition of the Laws.',
            ('"laws-2025-62"', EDITIONS, "Did you mean laws-2025-26?"),
        ),
    ),
    (
        'base = "left_open"',
        fault(
            "unknown_value",
            1,
            None,
            'base is "left_open", which is no edition of the Laws.',
            ('"left_open"', EDITIONS, f"Use one of: {EDITIONS}."),
        ),
    ),
    (
        "base = []",
        fault("type", 1, None, "base is [].", ("[]", "text in quotes", "Give text in quotes.")),
    ),
    (
        "[mercy_rule.often]\nlead = 8",
        fault(
            "unknown_key",
            1,
            None,
            "mercy_rule is no table or key of this file.",
            ("{ often = { lead = 8 } }", TOP, "Did you mean mercy?"),
        ),
    ),
    (
        '\n["goalkeeper.hold"]\nseconds = 8',
        fault(
            "unknown_key",
            2,
            None,
            '"goalkeeper.hold" is no table or key of this file.',
            ("{ seconds = 8 }", TOP, "Did you mean goalkeeper?"),
        ),
    ),
    (
        '[head]\nname = "x"',
        fault(
            "unknown_key",
            1,
            None,
            "head is no table or key of this file.",
            (
                None,
                TOP,
                "Write name, source and base at the top of the file, above the tables.",
            ),
        ),
    ),
    (
        "[[game]]\nminutes = 2",
        fault(
            "type",
            1,
            "game",
            "[game] is [{ minutes = 2 }].",
            ("[{ minutes = 2 }]", "a table", "Give a table."),
        ),
    ),
    (
        "[mercy]\nladder = [[]]",
        fault(
            "type",
            2,
            "mercy",
            "[mercy] ladder item 1 is [].",
            ("[]", "a table", "Give a table."),
        ),
    ),
    (
        '[[also]]\nref = "H 1"\ntitle = "Balls"',
        fault(
            "missing",
            1,
            "also",
            "[also] item 1.text is missing.",
            ('{ ref = "H 1", title = "Balls" }', "a value", "Give it a value."),
        ),
    ),
    (
        "[standings]\ncriteria = []",
        fault(
            "range",
            2,
            "standings",
            "[standings] criteria has 0 items.",
            ("[]", "1 to 20 items", "Give 1 to 20."),
        ),
    ),
    (
        "[standings]\ncriteria = [1]",
        fault(
            "unknown_value",
            2,
            "standings",
            f"[standings] criteria item 1 is 1: {CRITERION}.",
            ("1", CRITERION, "Use one of those."),
        ),
    ),
    (
        "[standings]\ncriteria = [{ among_level = [] }]",
        fault(
            "range",
            2,
            "standings",
            "[standings] criteria item 1.among_level has 0 items.",
            ("[]", "1 to 6 items", "Give 1 to 6."),
        ),
    ),
    (
        '[standings]\ncriteria = ["wins",\n"head_to_hed"]',
        fault(
            "unknown_value",
            3,
            "standings",
            '[standings] criteria item 2 is "head_to_hed".',
            (
                '"head_to_hed"',
                ", ".join(get_args(Figure)),
                "Did you mean among_level or h2h_points?",
            ),
        ),
    ),
    (
        '[ratings]\nby = "officials"\nscale = { low = 0, high = 5, step = 0 }',
        fault(
            "range",
            3,
            "ratings",
            "[ratings] scale is { low = 0, high = 5, step = 0 }: low must be below high, and "
            "step above 0.",
            (
                "{ low = 0, high = 5, step = 0 }",
                "low must be below high, and step above 0",
                "Change one of them.",
            ),
        ),
    ),
    (
        'name = "a\\u202eb"',
        fault(
            "bidi_control",
            1,
            None,
            "name holds U+202E, which nobody can see.",
            ("U+202E", READABLE, "Delete it and type the words again."),
        ),
    ),
    (
        '[game]\nclock = "run\\u0000ning"',
        fault(
            "control_char",
            2,
            "game",
            "[game] clock holds U+0000, which nobody can see.",
            ("U+0000", READABLE, "Delete it and type the words again."),
        ),
    ),
    (
        '[game]\n"a\\u202e" = 1',
        fault(
            "unknown_key",
            2,
            "game",
            '[game] "a\\u202e" is not known.',
            (
                "1",
                ", ".join(Game.model_fields),
                f"Use one of: {choices(Game.model_fields, most=12)}.",
            ),
        ),
    ),
    (
        '[goal_kick]\nwhy = "' + "x" * 401 + '"',
        fault(
            "limits",
            2,
            "goal_kick",
            "[goal_kick] why has 401 characters.",
            ('"' + "x" * 79 + "...", "at most 400 characters", "Give at most 400."),
        ),
    ),
]


@pytest.mark.parametrize(("text", "expected"), WHOLE, ids=[text for text, _ in WHOLE])
def test_each_mistake_gets_one_fault_that_says_all(text: str, expected: Fault) -> None:
    assert faults_of(text) == (expected,)


def test_values_that_exclude_each_other_are_named_with_both_tables() -> None:
    (only,) = faults_of("[sides]\non_field = 8\nminimum_to_start = 5\nminimum_to_continue = 6")
    assert only == fault(
        "contradiction",
        4,
        "sides",
        "[sides] minimum_to_continue is 6, more than [sides] minimum_to_start, which is 5.",
        (None, None, "Give minimum_to_continue at most 5, or raise minimum_to_start."),
    )


def test_a_table_of_two_criteria_is_told_to_hold_one() -> None:
    (found,) = faults_of(
        '[standings]\ncriteria = [{ among_level = ["h2h_points"], capped_difference = 3 }]\n'
    )
    assert (found.code, found.place.line) == ("unknown_key", 2)
    assert found.cure == "One table holds one criterion."


def test_a_rulebook_without_a_name_in_its_name_is_out_of_range() -> None:
    (found,) = faults_of('name = ""\n')
    assert (found.code, found.place.line, found.cure) == ("range", 1, "Give 1 or more.")
