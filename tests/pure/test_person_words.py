"""Every reason, cause and unknown entry is said in plain words with its cure.

No outside source: the words are our own.
"""

from datetime import date
from typing import get_args

import pytest

from cases.season_people import book
from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.reports.person_words import (
    CAPTAIN_SEES,
    article_name,
    captain_words,
    cause_words,
    cure_words,
    reason_words,
    still_words,
    unknown_words,
)
from wholeball.season.appearances import About, Unknown
from wholeball.season.reason_not import Code, Reason
from wholeball.season.suspension import Cause, Suspension
from wholeball.season.wearers import WhyUnknown

DAY = date(2026, 9, 8)


def reason(code: Code) -> Reason:
    return Reason(
        code=code,
        article="roster",
        teams=(TeamId("Birch"),),
        games=(GameId("A2"),),
        day=DAY,
        count=1,
        most=2,
    )


@pytest.mark.parametrize("code", get_args(Code))
def test_every_reason_is_said_whole_and_has_a_cure(code: Code) -> None:
    says, cure = reason_words(reason(code)), cure_words(reason(code))
    assert says.split()[0] in ("is", "has", "was", "came", "signed", "shows")
    assert "{" not in says + cure
    assert cure.endswith(".")


@pytest.mark.parametrize(
    "code", ["suspended", "not_cleared", "waiver_missing", "fee_open", "refused"]
)
def test_a_captain_reads_nothing_of_what_is_private(code: Code) -> None:
    assert captain_words(reason(code)) == CAPTAIN_SEES == "See the coordinator."


def test_a_captain_reads_what_the_side_can_mend() -> None:
    assert captain_words(reason("other_team")) == "Is bound to Birch."


@pytest.mark.parametrize(
    ("games", "count", "day", "says"),
    [
        ((), 1, None, "is suspended for 1 more game"),
        ((), 2, None, "is suspended for 2 more games"),
        ((), 0, DAY, "is suspended until Tuesday 8 September 2026"),
        ((), 0, None, "is suspended"),
        (
            (GameId("A2"),),
            1,
            None,
            "is suspended for 1 more game, unless A2 serves what is left",
        ),
        (
            (GameId("A2"), GameId("A3")),
            2,
            None,
            "is suspended for 2 more games, unless A2 and A3 serve what is left",
        ),
    ],
)
def test_staff_read_how_long_a_suspension_still_is(
    games: tuple[GameId, ...], count: int, day: date | None, says: str
) -> None:
    one = Reason(code="suspended", article="discipline.red", games=games, count=count, day=day)
    assert reason_words(one) == says


@pytest.mark.parametrize(
    ("count", "says"),
    [
        (1, "is suspended for 1 more game, and waits for a meeting"),
        (0, "is suspended, and waits for a meeting"),
    ],
)
def test_staff_read_that_a_player_also_waits_for_a_meeting(count: int, says: str) -> None:
    one = Reason(code="suspended", article="discipline.red", count=count, waits=True)
    assert reason_words(one) == says


def suspension(cause: Cause = "red", **keys: object) -> Suspension:
    return Suspension(
        person=PersonId("al"),
        cause=cause,
        article="discipline.red",
        game=GameId("A1"),
        day=DAY,
        league=None,
        games=2,
        **keys,  # type: ignore[arg-type]
    )


def test_a_suspension_names_its_cause_its_game_and_its_article() -> None:
    house = book('[discipline.red]\nref = "H 11.4"\n')
    assert [cause_words(suspension(cause), house) for cause in get_args(Cause)] == [
        "yellows in the season in game A1 (H 11.4)",
        "a red in game A1 (H 11.4)",
        "another red in the season in game A1 (H 11.4)",
        "a ruling in game A1 (H 11.4)",
    ]


@pytest.mark.parametrize(
    ("keys", "says"),
    [
        ({}, "2 games left"),
        ({"waits": True}, "2 games left and waits for a meeting"),
        ({"served": ((GameId("A2"), DAY), (GameId("A3"), DAY))}, "nothing left"),
        ({"until": DAY}, "until Tuesday 8 September 2026 and 2 games left"),
        ({"lifted": DAY}, "lifted from Tuesday 8 September 2026 on"),
    ],
)
def test_what_is_left_of_a_suspension_is_said(keys: dict[str, object], says: str) -> None:
    assert still_words(suspension(**keys)) == says  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("discipline.red", "discipline.red"),
        ("discipline.serving", "H 11.5"),
        ("Committee", "Committee"),
    ],
)
def test_an_article_is_named_by_its_reference_and_a_citation_stays(
    path: str, name: str
) -> None:
    house = book('[discipline.red]\ngames = 1\n[discipline.serving]\nref = "H 11.5"\n')
    assert article_name(path, house) == name


@pytest.mark.parametrize("why", get_args(WhyUnknown))
@pytest.mark.parametrize("about", get_args(About))
def test_every_entry_that_finds_nobody_says_what_to_do(why: WhyUnknown, about: About) -> None:
    one = Unknown(
        event="e1", side="home", team=TeamId("Ash"), number=5, name="Noor", why=why, about=about
    )
    says, cure = unknown_words(one)
    assert "{" not in says + cure
    assert "Ash" in says
    assert cure.endswith(".")
