"""What the page of play-offs tells: games with their places, who goes on, places long enough."""

from dataclasses import replace
from pathlib import Path
from typing import Final

import pytest

from cases.planned_season import GAMES, PLANNING, SEASON, SLOTS_HEAD
from cases.play_off_season import APART, LEVELS, rulebook, six_teams
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.usecases.bracket_offered import LeagueEnds, brackets_offered, league_ends
from wholeball.usecases.offer_bracket import (
    Changed,
    Offer,
    OfferedGame,
    RoundOffered,
    offer_bracket,
)
from wholeball.usecases.play_off_lengths import LengthShown
from wholeball.usecases.set_play_offs import PlayOffTold, add_play_off, take_bracket
from wholeball.usecases.show_play_offs import (
    BracketShown,
    GameShown,
    PlayOffsShown,
    RoundShown,
    show_play_offs,
)

LISTED: Final = GAMES.replace("away", "away,stage")
ALL_GO: Final = "6 of 6 teams go on. Seeds 1 and 2 have nobody to meet in the first round."
SHORT: Final = f"{SLOTS_HEAD}Meadow 1,monday,,,,18:00,21:00,,,\n"
"""Three starts on each of six Mondays, too short for a play-off game of 72 minutes."""
FEW: Final = f"{SLOTS_HEAD}Meadow 1,monday,,,,18:00,19:50,,,\n"
"""Two starts on each Monday, so that 15 games need eight."""
EARLY: Final = """
[[rules]]
rule = "round by round"
kind = "round_by_round"
strength = "wish"
cost = 1
"""
LONG: Final = (
    f"{SLOTS_HEAD}Meadow 1,monday,,,2027-01-25,18:00,21:00,,,\n"
    "Meadow 1,monday,,2027-02-01,,18:00,21:36,,,72\n"
)
"""Three starts on each of four Mondays, then three of 72 minutes on each of two."""


@pytest.fixture
def record(tmp_path: Path) -> FolderRecord:
    return six_teams(tmp_path / "season", slots_csv=SHORT)


def says(record: FolderRecord) -> list[tuple[str, str, int]]:
    """Return of each bracket its name, who goes on, and how many games it has."""
    read = read_folder(record)
    return [(one.bracket, one.says, len(one.games)) for one in brackets_offered(read)]


def test_an_empty_plan_says_what_the_bracket_would_have(record: FolderRecord) -> None:
    assert show_play_offs(record) == PlayOffsShown(
        brackets=(),
        alone=(),
        games=0,
        teams=6,
        offered=brackets_offered(read_folder(record)),
        has_play_offs=True,
        as_bracket=False,
        length=LengthShown(minutes=72, without=0, places=18, long_enough=0, after=""),
        overlap=None,
        last_round=6,
        has_begun=False,
    )
    assert says(record) == [("", ALL_GO, 5)]


@pytest.mark.parametrize(
    ("book", "teams", "found"),
    [
        (rulebook("none"), 6, []),
        (rulebook("overall", places=4), 6, [("", "4 of 6 teams go on.", 3)]),
        (
            rulebook("overall", places=7),
            6,
            [
                (
                    "",
                    f"The rulebook lets 7 go on, and {ALL_GO}",
                    5,
                )
            ],
        ),
        (
            rulebook("overall", places=3),
            6,
            [("", "3 of 6 teams go on. Seed 1 has nobody to meet in the first round.", 2)],
        ),
        (
            rulebook("overall", places=1),
            6,
            [("", "1 of 6 teams goes on: a bracket needs two.", 0)],
        ),
        (rulebook("all"), 64, [("", "64 of 64 teams go on.", 63)]),
        (rulebook("all"), 65, [("", "65 of 65 teams go on: a bracket holds 64.", 0)]),
        (rulebook("all"), 0, []),
    ],
)
def test_who_goes_on_is_told_and_why_there_is_no_bracket(
    tmp_path: Path, book: str, teams: int, found: list[tuple[str, str, int]]
) -> None:
    rows = "".join(f"T{number},A\n" for number in range(teams))
    record = six_teams(tmp_path, teams_csv=f"team,pool\n{rows}", rulebook_toml=book)
    assert says(record) == found


def test_each_division_says_who_goes_on_in_its_own_bracket(tmp_path: Path) -> None:
    alone = APART.replace("Elm,B,Mixed\nFir,B,Mixed\n", "")
    record = six_teams(tmp_path, teams_csv=alone, divisions_csv=LEVELS)
    assert says(record) == [
        ("Open", "3 of 3 teams go on. Seed 1 has nobody to meet in the first round.", 2),
        ("Mixed", "1 of 1 team goes on: a bracket needs two.", 0),
    ]
    assert show_play_offs(record).can_be_taken
    take_bracket(record, (7, 8))
    assert show_play_offs(record).as_bracket


def game(name: str, number: int, said: str) -> GameShown:
    return GameShown(game=name, round=number, says=said)


def test_games_stand_by_rounds_in_words_and_the_last_by_its_name(record: FolderRecord) -> None:
    take_bracket(record, (7, 8, 9))
    shown = show_play_offs(record)
    first = game("P1", 7, "Seed 4 – Seed 5"), game("P2", 7, "Seed 3 – Seed 6")  # noqa: RUF001
    second = (
        game("P3", 8, "Seed 1 – winner of P1"),  # noqa: RUF001
        game("P4", 8, "Seed 2 – winner of P2"),  # noqa: RUF001
    )
    final = replace(game("P5", 9, "Winner of P3 – winner of P4"), name="final")  # noqa: RUF001
    assert shown.brackets == (
        BracketShown(
            bracket="",
            rounds=(
                RoundShown(number=7, games=first),
                RoundShown(number=8, games=second),
                RoundShown(number=9, games=(final,)),
            ),
        ),
    )
    assert (shown.games, shown.as_bracket) == (5, True)


def test_divisions_stand_apart_and_do_not_repeat_their_names(tmp_path: Path) -> None:
    record = six_teams(tmp_path, teams_csv=APART, divisions_csv=LEVELS)
    take_bracket(record, (7, 8))
    add_play_off(
        record, PlayOffTold(game="Best", round=9, home="winner of P1.2", away="winner of P2.2")
    )
    brackets = show_play_offs(record).brackets
    assert [
        (
            one.bracket,
            [(each.game, each.says, each.name) for here in one.rounds for each in here.games],
        )
        for one in brackets
    ] == [
        (
            "Open",
            [
                ("P1.1", "Seed 2 – Seed 3", ""),  # noqa: RUF001
                ("P1.2", "Seed 1 – winner of P1.1", "final"),  # noqa: RUF001
            ],
        ),
        (
            "Mixed",
            [
                ("P2.1", "Seed 2 – Seed 3", ""),  # noqa: RUF001
                ("P2.2", "Seed 1 – winner of P2.1", "final"),  # noqa: RUF001
            ],
        ),
        ("", [("Best", "Winner of P1.2 – winner of P2.2", "")]),  # noqa: RUF001
    ]
    best = brackets[-1].rounds[0].games[0]
    assert (best.is_beside, show_play_offs(record).as_bracket) == (True, False)


PLACED: Final = (
    "1,5,2027-01-25,18:00,Meadow 1,Ash,Birch,\n"
    "P1,6,2027-02-01,18:00,Meadow 1,seed 4,seed 5,play_off\n"
    "P2,9,2027-02-01,19:12,Meadow 1,seed 3,seed 2,play_off\n"
    "P3,7,2027-02-08,18:00,Meadow 1,Cedar,Dogwood,play_off\n"
    "Show,9,2027-02-08,19:12,Meadow 1,Elm,Fir,play_off\n"
)


def test_what_the_timetable_has_of_each_game_stands_beside_it(record: FolderRecord) -> None:
    take_bracket(record, (6, 7, 8))
    planning = (record.path / "planning.toml").read_text()
    six_teams(
        record.path, planning_toml=planning, timetable_csv=LISTED + PLACED, slots_csv=LONG
    )
    shown = show_play_offs(record)
    games = {one.game: one for each in shown.brackets[0].rounds for one in each.games}
    told = {
        name: (one.place, one.teams, one.there, one.other_round) for name, one in games.items()
    }
    assert told == {
        "P1": ("Monday 1 February, 18:00, Meadow 1", "", "", None),
        "P2": ("Monday 1 February, 19:12, Meadow 1", "", "seed 3 v seed 2", 9),
        "P3": ("Monday 8 February, 18:00, Meadow 1", "Cedar v Dogwood", "", None),
        "P4": ("", "", "", None),
        "P5": ("", "", "", None),
    }
    assert (shown.others, shown.renumbered) == (1, 1)
    assert [(one.game, one.says, one.place) for one in shown.alone] == [
        ("Show", "Elm v Fir", "Monday 8 February, 19:12, Meadow 1")
    ]
    assert shown.length == LengthShown(
        minutes=72, without=2, places=18, long_enough=6, after="Monday 25 January"
    )
    assert shown.length.missing == 0


@pytest.mark.parametrize(("first", "overlap"), [(5, 5), (6, None)])
def test_rounds_that_do_not_come_after_the_league_are_told_once_it_has_a_timetable(
    record: FolderRecord, first: int, overlap: int | None
) -> None:
    take_bracket(record, (first, 7, 8))
    assert show_play_offs(record).overlap is None
    planning = (record.path / "planning.toml").read_text()
    rows = LISTED + PLACED[: PLACED.index("P1")]
    six_teams(record.path, planning_toml=planning, timetable_csv=rows)
    shown = show_play_offs(record)
    assert (shown.overlap, shown.last_round) == (overlap, 5)


@pytest.mark.parametrize(("without", "missing"), [(6, 0), (7, 1)])
def test_too_few_places_are_counted(without: int, missing: int) -> None:
    length = LengthShown(minutes=72, without=without, places=18, long_enough=6, after="")
    assert length.missing == missing


@pytest.mark.parametrize(
    ("changed", "ends"),
    [
        ({"slots_csv": SHORT}, LeagueEnds(round=6, least=5, is_listed=False)),
        (
            {"slots_csv": SHORT, "planning_toml": PLANNING + EARLY},
            LeagueEnds(round=5, least=5, is_listed=False),
        ),
        (
            {"slots_csv": FEW, "planning_toml": PLANNING + EARLY},
            LeagueEnds(round=8, least=5, is_listed=False),
        ),
        ({"slots_csv": FEW}, LeagueEnds(round=9, least=5, is_listed=False)),
        ({"slots_csv": LONG}, LeagueEnds(round=5, least=5, is_listed=False)),
        ({"slots_csv": SLOTS_HEAD}, LeagueEnds(round=5, least=5, is_listed=False)),
        (
            {"slots_csv": SLOTS_HEAD, "planning_toml": f"games_each = 2\n{PLANNING}"},
            LeagueEnds(round=2, least=2, is_listed=False),
        ),
        (
            {"slots_csv": SLOTS_HEAD, "teams_csv": "team,pool\nAsh,A\nBirch,A\nCedar,A\n"},
            LeagueEnds(round=3, least=3, is_listed=False),
        ),
        (
            {"slots_csv": SLOTS_HEAD, "teams_csv": "team,pool\nAsh,A\n"},
            LeagueEnds(round=0, least=0, is_listed=False),
        ),
        ({"timetable_csv": LISTED + PLACED}, LeagueEnds(round=5, least=5, is_listed=True)),
    ],
)
def test_the_league_ends_where_its_timetable_says_or_at_the_latest_that_can_be(
    tmp_path: Path, changed: dict[str, str], ends: LeagueEnds
) -> None:
    longer = (
        SEASON.replace("2027-02-14", "2027-03-07")
        if changed.get("slots_csv") == FEW
        else SEASON
    )
    record = six_teams(tmp_path, **{"slots_csv": LONG, "season_toml": longer, **changed})
    assert league_ends(read_folder(record)) == ends


def test_nights_kept_for_rain_and_closed_ones_are_no_places(tmp_path: Path) -> None:
    record = six_teams(
        tmp_path,
        slots_csv=LONG,
        planning_toml=f"spare_nights = [2027-02-08]\n{PLANNING}",
        closures_csv="field,site,date,last_date,from,until,why\nMeadow 1,,2027-02-01,,,19:00,\n",
    )
    length = show_play_offs(record).length
    assert (length.places, length.long_enough) == (14, 2)


def test_the_offer_says_what_comes_changes_goes_and_stays(record: FolderRecord) -> None:
    for told in (
        PlayOffTold(game="P1", round=8, home="seed 4", away="seed 5"),
        PlayOffTold(game="P2", round=8, home="seed 3", away="seed 2"),
        PlayOffTold(game="Show", round=9, home="loser of P1", away="loser of P2"),
    ):
        add_play_off(record, told)
    assert offer_bracket(record) == Offer(
        offered=brackets_offered(read_folder(record)),
        rounds=(
            RoundOffered(number=1, games=("P1", "P2"), proposed=7),
            RoundOffered(number=2, games=("P3", "P4"), proposed=8),
            RoundOffered(number=3, games=("P5",), proposed=9),
        ),
        league=LeagueEnds(round=6, least=5, is_listed=False),
        comes=(
            OfferedGame(game="P3", says="Seed 1 – winner of P1"),  # noqa: RUF001
            OfferedGame(game="P4", says="Seed 2 – winner of P2"),  # noqa: RUF001
            OfferedGame(game="P5", says="Winner of P3 – winner of P4"),  # noqa: RUF001
        ),
        changes=(
            Changed(game="P2", was="Seed 3 – Seed 2", now="Seed 3 – Seed 6"),  # noqa: RUF001
        ),
        goes=(OfferedGame(game="Show", says="Loser of P1 – loser of P2", round=9),),  # noqa: RUF001
        stays=(OfferedGame(game="P1", says="Seed 4 – Seed 5", round=8),),  # noqa: RUF001
    )


@pytest.mark.parametrize(
    ("planned", "proposed"),
    [((8, 10, 11), (8, 10, 11)), ((6, 8, 9), (7, 8, 9)), ((9, 10, 99), (9, 10, 99))],
)
def test_rounds_stay_as_they_are_planned_where_all_come_after_the_league(
    record: FolderRecord, planned: tuple[int, ...], proposed: tuple[int, ...]
) -> None:
    take_bracket(record, planned)
    assert tuple(one.proposed for one in offer_bracket(record).rounds) == proposed


def test_without_a_bracket_nothing_comes(tmp_path: Path) -> None:
    record = six_teams(tmp_path, rulebook_toml=rulebook("none"))
    offer = offer_bracket(record)
    assert (offer.rounds, offer.comes, offer.stays) == ((), (), ())
    shown = show_play_offs(record)
    assert (shown.has_play_offs, shown.can_be_taken, shown.as_bracket) == (False, False, False)
