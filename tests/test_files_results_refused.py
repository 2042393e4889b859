"""A row of results.csv that says no game that can be is refused, with what in it cannot."""

import pytest

from cases.result_rows import AWARDED, DEFAULT, DOUBLE, FORFEIT, read
from wholeball.kernel.faults import Fault, Place

TO_COME = (
    "Write the goals that stand, 0 to 99. Leave out games to come: they stand in timetable.csv."
)


@pytest.mark.parametrize(
    ("row", "column", "code", "says", "told"),
    [
        (
            {"home": "Redz"},
            "home",
            "unknown_team",
            '"Redz" is no team of teams.csv.',
            ("Redz", None, "Did you mean Reds?"),
        ),
        (
            {"away": "reds"},
            "away",
            "unknown_team",
            '"reds" is no team of teams.csv.',
            ("reds", None, "Did you mean Reds?"),
        ),
        (
            {"away": "Reds"},
            "away",
            "self",
            "Reds cannot play itself.",
            ("Reds", None, "Name the opponents."),
        ),
        (
            {"away": "Greens"},
            "away",
            "pools",
            "Reds plays in pool A, Greens in B.",
            (
                "Greens",
                None,
                "A table counts games within a pool; mend the teams or their pools.",
            ),
        ),
        (
            {"home_goals": ""},
            "home_goals",
            "missing",
            "a game that was played needs home_goals.",
            (None, None, "Write the goals that stand, 0 to 99."),
        ),
        (
            {"home_goals": "", "away_goals": ""},
            "home_goals",
            "missing",
            "a game that was played needs home_goals and away_goals.",
            (None, None, TO_COME),
        ),
        (
            AWARDED | {"away_goals": ""},
            "away_goals",
            "missing",
            "a game that was awarded needs away_goals.",
            (None, None, "Write the goals that stand, 0 to 99."),
        ),
        (
            FORFEIT | {"home_goals": "0"},
            "home_goals",
            "contradiction",
            "home_goals is given, but the rulebook scores a game that is forfeit.",
            (
                "0",
                None,
                "Leave it empty; goals already played go to home_played and away_played.",
            ),
        ),
        (
            DOUBLE | {"how": "annulled", "away_goals": "3"},
            "away_goals",
            "contradiction",
            "away_goals is given, but the rulebook scores a game that is annulled.",
            (
                "3",
                None,
                "Leave it empty; goals already played go to home_played and away_played.",
            ),
        ),
        (
            FORFEIT | {"by": ""},
            "by",
            "missing",
            "a forfeit needs to say by whom.",
            (None, None, "Write home or away."),
        ),
        (
            DEFAULT | {"by": ""},
            "by",
            "missing",
            "a default needs to say by whom.",
            (None, None, "Write home or away."),
        ),
        (
            {"by": "home"},
            "by",
            "contradiction",
            "by is home, but the game is played.",
            ("home", None, "Only a forfeit or a default is by a side."),
        ),
        (
            DOUBLE | {"by": "away"},
            "by",
            "contradiction",
            "by is away, but the game is double_forfeit.",
            ("away", None, "Only a forfeit or a default is by a side."),
        ),
        (
            AWARDED | {"away_played": ""},
            "away_played",
            "missing",
            "away_played is empty.",
            (None, None, "Give both goals as played, or none."),
        ),
        (
            FORFEIT | {"away_played": "1"},
            "home_played",
            "missing",
            "home_played is empty.",
            (None, None, "Give both goals as played, or none."),
        ),
        (
            {"home_played": "2", "away_played": "1"},
            "home_played",
            "contradiction",
            "the game was played, so what was played is what stands.",
            ("2", None, "Leave home_played and away_played empty, or say how = awarded."),
        ),
        (
            {"date": "2025-08-31"},
            "date",
            "range",
            "2025-08-31 is outside the season, 2026-09-01 to 2026-12-01.",
            ("2025-08-31", None, "Mend the day, or the season's days in season.toml."),
        ),
        (
            {"date": "2027-12-02"},
            "date",
            "range",
            "2027-12-02 is outside the season, 2026-09-01 to 2026-12-01.",
            ("2027-12-02", None, "Mend the day, or the season's days in season.toml."),
        ),
        (
            {"home_rating": "0.5"},
            "home_rating",
            "range",
            "home_rating is 0.5.",
            ("0.5", None, "Give one of 1 to 5 in steps of 0.5."),
        ),
        (
            {"away_rating": "3.75"},
            "away_rating",
            "range",
            "away_rating is 3.75.",
            ("3.75", None, "Give one of 1 to 5 in steps of 0.5."),
        ),
        (
            {"round": "0"},
            "round",
            "range",
            'round is "0".',
            ("0", "1 to 99", "Give 1 to 99."),
        ),
        (
            {"home_goals": "100"},
            "home_goals",
            "range",
            'home_goals is "100".',
            ("100", "0 to 99", "Give 0 to 99."),
        ),
        (
            {"away_yellow": "31"},
            "away_yellow",
            "range",
            'away_yellow is "31".',
            ("31", "0 to 30", "Give 0 to 30."),
        ),
        (
            {"how": "forfiet"},
            "how",
            "unknown_value",
            'how is "forfiet".',
            (
                "forfiet",
                "played, forfeit, default, double_forfeit, awarded, annulled",
                "Did you mean forfeit?",
            ),
        ),
        (
            {"stage": "playoff"},
            "stage",
            "unknown_value",
            'stage is "playoff".',
            ("playoff", "league, play_off, decider", "Did you mean play_off?"),
        ),
    ],
)
def test_a_game_that_cannot_be_is_named_with_its_column(
    row: dict[str, str],
    column: str,
    code: str,
    says: str,
    told: tuple[str | None, str | None, str],
) -> None:
    found, table = read(row, {"game": "2", "round": "2"})
    value, allowed, cure = told
    place = Place(file="results.csv", row=2, column=column)
    assert table.faults == [
        Fault(code=code, place=place, says=says, value=value, allowed=allowed, cure=cure)
    ]
    assert [one.game for one in found.results] == ["2"]


@pytest.mark.parametrize(
    "column",
    ["home_goals", "away_goals", "home_played", "away_played", "home_kicks", "away_kicks"],
)
def test_goals_and_kicks_are_0_to_99(column: str) -> None:
    def out_of_range(number: str) -> list[tuple[str | None, str | None]]:
        faults = read({column: number})[1].faults
        return [(one.place.column, one.allowed) for one in faults if one.code == "range"]

    assert out_of_range("100") == [(column, "0 to 99")]
    assert (out_of_range("0"), out_of_range("99")) == ([], [])


def test_a_game_listed_twice_is_named_with_the_row_it_stands_on_first() -> None:
    found, table = read({}, {"round": "2"}, {"round": "3"})
    assert [(one.place.row, one.code, one.says) for one in table.faults] == [
        (3, "duplicate", "game 1 stands on row 2 too."),
        (4, "duplicate", "game 1 stands on row 2 too."),
    ]
    assert [one.round for one in found.results] == [1]


def test_everything_wrong_with_a_row_is_named_at_once() -> None:
    _, table = read(
        FORFEIT | {"home": "Pinks", "by": "", "home_goals": "1", "home_played": "1"}
    )
    assert [(one.place.column, one.code) for one in table.faults] == [
        ("home", "unknown_team"),
        ("home_goals", "contradiction"),
        ("by", "missing"),
        ("away_played", "missing"),
    ]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ({"home_kicks": "4", "away_goals": "2"}, [("away_kicks", "away_kicks is empty.")]),
        ({"away_kicks": "4", "away_goals": "2"}, [("home_kicks", "home_kicks is empty.")]),
        (
            {"home_kicks": "4", "away_kicks": "4", "away_goals": "2"},
            [("away_kicks", "kicks are level at 4 each, and decide nothing.")],
        ),
        (
            {"home_kicks": "4", "away_kicks": "3"},
            [
                (
                    "home_kicks",
                    "kicks are given, but the game is not one that was played and level.",
                )
            ],
        ),
        (
            FORFEIT | {"home_kicks": "4", "away_kicks": "3"},
            [
                (
                    "home_kicks",
                    "kicks are given, but the game is not one that was played and level.",
                )
            ],
        ),
    ],
)
def test_kicks_are_those_that_decided_a_level_game(
    row: dict[str, str], told: list[tuple[str, str]]
) -> None:
    faults = read(row)[1].faults
    assert [(one.place.column, one.says) for one in faults] == told


def test_a_wrong_name_is_looked_up_for_the_first_100_names_only() -> None:
    _, table = read(*({"game": str(n), "home": f"Reds{n}"} for n in range(101)))
    cures = [one.cure for one in table.faults]
    assert set(cures[:100]) == {"Did you mean Reds?"}
    assert cures[100] == "Use a name of teams.csv."
