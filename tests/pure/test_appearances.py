"""A number in a game finds its person by the check-in of that game, then by the roster.

No outside source: how numbers are put to people is this league's own way.
"""

import pytest

from cases.season_people import book, fixture
from wholeball.game.event import Event, Moment
from wholeball.game.happenings import (
    Cautioned,
    CheckedIn,
    Goal,
    Happening,
    PeriodStarted,
    Retracted,
    SentOff,
)
from wholeball.game.play import play
from wholeball.game.rules import game_rules
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import Player, Rosters
from wholeball.season.appearances import (
    Appearance,
    GameSheet,
    PersonCard,
    Unknown,
    sheet_of,
    sheet_of_result,
)
from wholeball.season.result import How, Result

ASH, BIRCH = TeamId("Ash"), TeamId("Birch")
NOOR, UMARU = PersonId("k-noor"), PersonId("k-umaru")
ROSTERS: Rosters = {
    ASH: (
        Player(name="Noor Zephirou", number=4, person=NOOR),
        Player(name="Umaru Kealohana", number=7, person=UMARU),
        Player(name="Berat Vasconde"),
        Player(name="Bodil Lindqvar", number=8),
        Player(name="Dagny Havenko", number=8),
    ),
}


def sheet(*happened: Happening, rosters: Rosters = ROSTERS) -> GameSheet:
    order = enumerate((PeriodStarted(), *happened))
    found = [
        Event(
            f"e{at}", Moment(0 if isinstance(one, CheckedIn) else 1, at), (at, 0, "d", at), one
        )
        for at, one in order
    ]
    state = play(found, game_rules(book()))
    return sheet_of(fixture(1), state, None, rosters)


def who(of: GameSheet) -> list[tuple[str | None, int | None]]:
    return [(one.person, one.number) for one in of.appeared]


def why(of: GameSheet) -> list[tuple[str, str, int | None, str]]:
    return [(one.why, one.about, one.number, one.name) for one in of.unknown]


def test_each_player_appears_once_however_often_the_game_names_them() -> None:
    found = sheet(
        CheckedIn(side="home", number=4),
        Goal(side="home", number=4),
        Cautioned(side="home", number=4),
    )
    assert found.appeared == (Appearance(person=NOOR, team=ASH, side="home", number=4),)
    assert found.unknown == ()


def test_a_player_without_a_code_is_somebody_of_this_roster() -> None:
    found = sheet(CheckedIn(side="home", player="berat vasconde"))
    assert who(found) == [("Ash: Berat Vasconde", None)]


def test_a_shirt_given_at_the_gate_goes_before_the_roster() -> None:
    found = sheet(
        CheckedIn(side="home", number=4, player="Berat Vasconde"),
        SentOff(side="home", number=4),
    )
    assert [one.person for one in found.cards] == ["Ash: Berat Vasconde"]
    assert who(found) == [("Ash: Berat Vasconde", 4)]


def test_a_code_counts_on_whichever_roster_it_stands() -> None:
    found = sheet(CheckedIn(side="away", number=9, player="k-noor"))
    assert found.appeared == (Appearance(person=NOOR, team=BIRCH, side="away", number=9),)


@pytest.mark.parametrize(
    ("entry", "reason"),
    [
        (SentOff(side="home", number=5), ("not_on_roster", "red", 5, "")),
        (Cautioned(side="home", number=8), ("shared_number", "yellow", 8, "")),
        (Cautioned(side="home"), ("no_number", "yellow", None, "")),
        (SentOff(side="home", to="team_official"), ("team_official", "red", None, "")),
        (CheckedIn(side="home", player="Nour"), ("unknown_name", "check_in", None, "Nour")),
        (Goal(side="home", number=5), ("not_on_roster", "goal", 5, "")),
    ],
)
def test_an_entry_that_finds_nobody_says_why(
    entry: Happening, reason: tuple[str, str, int | None, str]
) -> None:
    found = sheet(entry)
    assert why(found) == [reason]
    assert {one.person for one in found.cards} | {one.person for one in found.appeared} == {
        None
    }


def test_a_number_that_finds_nobody_is_told_once_a_game() -> None:
    assert why(sheet(Goal(side="home", number=5), SentOff(side="home", number=5))) == [
        ("not_on_roster", "goal", 5, "")
    ]


def test_a_team_without_a_roster_is_not_asked_about() -> None:
    found = sheet(SentOff(side="away", number=5))
    assert (found.unknown, who(found)) == ((), [(None, 5)])


def test_two_of_one_name_are_told_apart_by_their_codes_only() -> None:
    twins = {ASH: (*ROSTERS[ASH], Player(name="noor zephirou", person=PersonId("k-other")))}
    named = sheet(CheckedIn(side="home", player="Noor Zephirou"), rosters=twins)
    coded = sheet(CheckedIn(side="home", player="k-other"), rosters=twins)
    assert (why(named), who(coded)) == (
        [("shared_name", "check_in", None, "Noor Zephirou")],
        [("k-other", None)],
    )


def test_a_yellow_to_a_team_official_is_nothing_to_look_into() -> None:
    assert sheet(Cautioned(side="home", to="team_official")).unknown == ()


def test_an_own_goal_names_a_player_of_the_other_side() -> None:
    assert who(sheet(Goal(side="away", number=4, own=True))) == [("k-noor", 4)]


@pytest.mark.parametrize(("to", "there"), [("player", [("k-noor", 4)]), ("substitute", [])])
def test_a_yellow_tells_that_a_player_appeared_and_not_that_a_substitute_did(
    to: str, there: list[tuple[str, int]]
) -> None:
    found = sheet(Cautioned.model_validate({"side": "home", "number": 4, "to": to}))
    assert (who(found), [one.person for one in found.cards]) == (there, ["k-noor"])


def test_a_check_in_that_was_taken_back_tells_nothing() -> None:
    found = sheet(CheckedIn(side="home", number=4), Retracted(target="e1"))
    assert (found.appeared, found.checked_in) == ((), (False, False))


def test_two_yellows_make_a_red_that_is_derived_and_not_straight() -> None:
    found = sheet(*[Cautioned(side="home", number=4)] * 2)
    red = found.cards[-1]
    assert red == PersonCard(
        person=NOOR,
        side="home",
        team=ASH,
        number=4,
        colour="red",
        second_caution=True,
        derived=True,
        event="e2",
        at=Moment(1, 2),
    )
    assert [one.straight for one in found.cards] == [False, False, False]
    assert [one.straight for one in sheet(SentOff(side="home", number=4)).cards] == [True]


def test_an_unknown_entry_names_its_event_side_and_team() -> None:
    assert sheet(SentOff(side="home", number=5)).unknown == (
        Unknown(
            event="e1",
            side="home",
            team=ASH,
            number=5,
            name="",
            why="not_on_roster",
            about="red",
        ),
    )


@pytest.mark.parametrize(
    ("how", "score", "is_played"),
    [
        ("played", None, True),
        ("awarded", (3, 2), True),
        ("awarded", None, False),
        ("annulled", None, False),
    ],
)
def test_a_result_alone_tells_play_only_by_a_score_that_was_played(
    how: How, score: tuple[int, int] | None, *, is_played: bool
) -> None:
    of = fixture(1)
    result = Result(
        game=of.game, round=1, home=of.home, away=of.away, how=how, played_score=score
    )
    assert sheet_of_result(of, result).is_played is is_played
