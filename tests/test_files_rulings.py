"""A row of rulings.csv says one ruling about one game, or what in it cannot be."""

from datetime import date

import pytest

from wholeball.files.rulings import COLUMNS, cells_of_rulings, read_rulings
from wholeball.files.table import Table, write_table
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId
from wholeball.league.league import League
from wholeball.rulebook.load import load
from wholeball.season.ruling import Ruling

LEAGUE = League(
    name="Lantern Hill",
    timezone="Europe/London",
    first_day=date(2026, 9, 1),
    last_day=date(2026, 12, 1),
    teams=(),
)
GAMES = ("W11", "W12")
AWARDED = {
    "ruling": "4",
    "date": "2026-10-07",
    "game": "W12",
    "ruled": "awarded",
    "home_goals": "0",
    "away_goals": "3",
    "ref": "H 3.5",
    "why": "An ineligible player",
}
FORFEIT = AWARDED | {"ruled": "forfeit", "by": "away", "home_goals": "", "away_goals": ""}
ANNULLED = FORFEIT | {"ruled": "annulled", "by": ""}
STANDS = FORFEIT | {"ruled": "Stands", "by": "", "date": ""}


def read(
    *rows: dict[str, str], games: tuple[str, ...] | None = GAMES
) -> tuple[tuple[Ruling, ...], Table]:
    names = [column.name for column in COLUMNS]
    data = write_table(names, [[row.get(name) for name in names] for row in rows])
    return read_rulings(data, LEAGUE, games)


def test_each_kind_of_ruling_is_read() -> None:
    rows = [
        row | {"ruling": str(n)}
        for n, row in enumerate((AWARDED, FORFEIT, ANNULLED, STANDS), start=1)
    ]
    rulings, table = read(*rows)
    day, game = date(2026, 10, 7), GameId("W12")
    said = {"game": game, "ref": "H 3.5", "why": "An ineligible player"}
    assert table.faults == []
    assert rulings == (
        Ruling(number=1, day=day, ruled="awarded", goals=(0, 3), **said),  # type: ignore[arg-type]
        Ruling(number=2, day=day, ruled="forfeit", by="away", **said),  # type: ignore[arg-type]
        Ruling(number=3, day=day, ruled="annulled", **said),  # type: ignore[arg-type]
        Ruling(number=4, ruled="stands", **said),  # type: ignore[arg-type]
    )


@pytest.mark.parametrize(
    ("row", "column", "code", "says", "cure"),
    [
        (
            AWARDED | {"game": "w11"},
            "game",
            "unknown_game",
            '"w11" is no game of timetable.csv or results.csv.',
            "Did you mean W11?",
        ),
        (
            AWARDED | {"away_goals": ""},
            "away_goals",
            "missing",
            "a game that is awarded needs away_goals.",
            "Write the goals that it counts as, 0 to 99.",
        ),
        (
            ANNULLED | {"home_goals": "0"},
            "home_goals",
            "contradiction",
            "home_goals is given, but the game is ruled annulled.",
            "Leave it empty: only a game that is awarded gets its goals here.",
        ),
        (
            FORFEIT | {"by": ""},
            "by",
            "missing",
            "a forfeit needs to say by whom.",
            "Write home or away.",
        ),
        (
            STANDS | {"by": "home"},
            "by",
            "contradiction",
            "by is home, but the game is ruled stands.",
            "Only a forfeit is by a side; leave it empty.",
        ),
        (
            AWARDED | {"date": "2024-10-07"},
            "date",
            "range",
            "2024-10-07 is outside the season, 2026-09-01 to 2026-12-01.",
            "Mend the day, or the season's days in season.toml.",
        ),
        (AWARDED | {"ruling": "0"}, "ruling", "range", 'ruling is "0".', "Give 1 to 9,999."),
        (
            AWARDED | {"ruled": "overturned"},
            "ruled",
            "unknown_value",
            'ruled is "overturned".',
            "Use one of: awarded, forfeit, annulled, stands.",
        ),
        (AWARDED | {"ref": ""}, "ref", "missing", None, None),
        (AWARDED | {"why": ""}, "why", "missing", None, None),
    ],
)
def test_each_mistake_is_told_with_its_row_column_value_and_cure(
    row: dict[str, str], column: str, code: str, says: str | None, cure: str | None
) -> None:
    rulings, table = read(row)
    (only,) = table.faults
    assert rulings == ()
    assert (only.place, only.code, only.value) == (
        Place(file="rulings.csv", row=2, column=column),
        code,
        row[column] or None,
    )
    assert says is None or (only.says, only.cure) == (says, cure)


def test_a_number_stands_once_and_a_game_may_be_ruled_on_again() -> None:
    rulings, table = read(AWARDED, STANDS | {"ruling": "5"}, ANNULLED | {"game": "W11"})
    assert [one.number for one in rulings] == [4, 5]
    assert table.faults == [
        Fault(
            code="duplicate",
            place=Place(file="rulings.csv", row=4, column="ruling"),
            says="ruling 4 stands on row 2 too.",
            value="4",
            cure="Give the later one the next number: the last about a game holds.",
        )
    ]


def test_all_that_is_wrong_with_a_row_is_told_at_once() -> None:
    wrong = AWARDED | {"game": "x", "by": "home", "home_goals": "", "date": "2024-01-01"}
    assert [one.place.column for one in read(wrong)[1].faults] == [
        "date",
        "game",
        "by",
        "home_goals",
    ]


def test_a_ruling_after_the_season_is_read_with_a_doubt() -> None:
    rulings, table = read(AWARDED | {"date": "2026-12-02"})
    assert (len(rulings), [one.level for one in table.faults]) == (1, ["doubt"])


def test_games_are_not_looked_up_where_not_all_could_be_read() -> None:
    rulings, table = read(AWARDED | {"game": "x"}, games=None)
    assert (len(rulings), table.faults) == (1, [])
    assert cells_of_rulings(b"ruling,game,ruled,ref,why\n1,x,stands,H 1,so\n")[1].faults == []


def doubts(ref: str) -> list[tuple[str, str]]:
    names = [column.name for column in COLUMNS]
    row = AWARDED | {"ref": ref}
    text = b"""base = "laws-2025-26"
mercy = { ref = "H 12.1", ladder = [{ lead = 8, minutes_left = 12 }] }
"""
    book = load(text, file="rulebook.toml").rulebook
    data = write_table(names, [[row.get(name) for name in names]])
    rulings, table = read_rulings(data, LEAGUE, GAMES, book)
    assert [one.ref for one in rulings] == [ref]
    return [(one.says, one.cure) for one in table.faults]


@pytest.mark.parametrize("ref", ["H 12.1", "h12.1", "Law 3.1", "Committee", "Minute 4 of May"])
def test_an_article_of_the_rulebook_or_free_words_are_taken(ref: str) -> None:
    assert doubts(ref) == []


@pytest.mark.parametrize(
    ("ref", "near"), [("H 12.2", "H 12.1"), ("H 99.9", "H 12.1"), ("Law 3.11", "Law 3.1")]
)
def test_what_looks_like_an_article_and_is_none_is_doubted(ref: str, near: str) -> None:
    [(says, cure)] = doubts(ref)
    assert says == f'"{ref}" is no article of rulebook.toml.'
    assert cure in {f"Did you mean {near}?", "Cite an article of the rulebook."}
