"""Sites, fields, crews and fees are read whole, or all that is wrong is named at once."""

from datetime import date, time
from decimal import Decimal

import pytest

from wholeball.files.crews import read_crews
from wholeball.files.fees import fee_doubts, read_fees
from wholeball.files.fields import read_fields
from wholeball.files.row_faults import Known
from wholeball.files.sites import read_sites
from wholeball.files.table import Table
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId, SiteId, TeamId
from wholeball.league.crew import OnCrew
from wholeball.league.place import Field, Site, sites_of
from wholeball.season.fees import Due, FeeEntry, Ledger

EVENING = (date(2026, 10, 13), time(19))
STARTS = {"1": EVENING, "2": EVENING, "3": (date(2026, 10, 13), time(20))}
ROLES = ("referee", "assistant", "assistant")
GAMES = Known((*STARTS, "old"), "Use a game of timetable.csv.")
OFFICIALS = Known(("Ada", "Ben", "Cleo"), "Use a name of officials.csv.")
TEAMS = Known(("Reds", "Blues"), "Use a name of teams.csv.")


def wrong(table: Table) -> list[tuple[int | None, str | None, str, str, str]]:
    """Return all that a person is told of a table whose faults are faults."""
    assert {one.level for one in table.faults} <= {"fault"}
    return [
        (one.place.row, one.place.column, one.code, one.says, one.cure) for one in table.faults
    ]


def test_a_site_says_what_its_emergency_page_needs_and_may_say_nothing_yet() -> None:
    head = "site,address,gate,gate_opener,aed,calls,meets,shelter\n"
    rows = 'Park,"1 Mill Lane, Yard",Gate B,Kim,Hut,lead,trail,Gym\nMeadow,,,,,,,\n'
    found, table = read_sites((head + rows).encode())
    assert table.faults == []
    assert found == (
        Site(
            site=SiteId("Park"),
            address="1 Mill Lane, Yard",
            gate="Gate B",
            gate_opener="Kim",
            aed="Hut",
            calls="lead",
            meets="trail",
            shelter="Gym",
        ),
        Site(site=SiteId("Meadow")),
    )


def test_every_fault_of_sites_and_fields_comes_at_once() -> None:
    assert wrong(read_sites(b"site\nPark\npark\n")[1]) == [
        (3, "site", "duplicate", '"park" stands on row 2 too.', "Take one out.")
    ]
    sites = Known(("Park", "Meadow"), "Use a name of sites.csv.")
    found, table = read_fields(b"field,site\n1,Park\n1,Meadow\n2,Prak\n", sites)
    assert found == (Field(field="1", site=SiteId("Park")),)
    assert wrong(table) == [
        (3, "field", "duplicate", '"1" stands on row 2 too.', "Take one out."),
        (4, "site", "unknown_site", '"Prak" is no site of sites.csv.', "Did you mean Park?"),
    ]


def test_a_field_may_belong_to_no_site_yet() -> None:
    bare = (Field(field="1", site=None), Field(field="2", site=None))
    for data in (b"field,site\n1,\n2,\n", b"field\n1\n2\n"):
        found, table = read_fields(data, Known((), "Use a name of sites.csv."))
        assert (found, table.faults) == (bare, [])
    park = Field(field="3", site=SiteId("Park"))
    assert sites_of((*bare, park)) == {"3": SiteId("Park")}


def crews(rows: str) -> tuple[tuple[OnCrew, ...], Table]:
    data = f"game,role,official\n{rows}".encode()
    return read_crews(data, GAMES, OFFICIALS, roles=ROLES, starts=STARTS)


def test_a_role_that_the_crew_has_twice_is_filled_twice_and_an_official_works_one_game_more() -> (
    None
):
    found, table = crews(
        "1,Referee,Ada\n1,assistant,Ben\n1,assistant,Cleo\n3,referee,Ada\nold,referee,Ada\n"
    )
    assert table.faults == []
    assert found[0] == OnCrew(game=GameId("1"), role="referee", official="Ada")
    assert len(found) == 5


def test_every_fault_of_the_crews_comes_at_once() -> None:
    found, table = crews(
        "1,referee,Ada\n1,referee,Ben\n1,assistant,Ada\n2,assistant,Ada\n"
        "3,refere,Ben\n4,referee,Bem\n"
    )
    assert len(found) == 1
    assert wrong(table) == [
        (
            3,
            "role",
            "duplicate",
            "game 1 has its referee on row 2 already.",
            "Name another role, or take one out.",
        ),
        (4, "official", "duplicate", '"Ada" stands on row 2 too.', "Take one out."),
        (
            5,
            "official",
            "clash",
            "Ada works another game at 19:00 on row 2.",
            "Give one of the games somebody else.",
        ),
        (
            6,
            "role",
            "unknown_role",
            '"refere" is no role of the rulebook\'s crew.',
            "Did you mean referee?",
        ),
        (
            7,
            "game",
            "unknown_game",
            '"4" is no game of timetable.csv or results.csv.',
            "Use one of: 1, 2, 3, old.",
        ),
        (
            7,
            "official",
            "unknown_official",
            '"Bem" is no official of officials.csv.',
            "Did you mean Ben?",
        ),
    ]


FEES = "date,team,game,what,amount,why\n"


def test_a_fee_is_paid_in_parts_on_one_day_and_waived_with_a_reason() -> None:
    rows = (
        "2026-10-14,Reds,1,paid,10,\n2026-10-14,Reds,1,Paid,10,\n"
        "2026-10-15,Reds,1,waived,0.01,Snow.\n"
    )
    found, table = read_fees((FEES + rows).encode(), None, TEAMS, GAMES)
    assert table.faults == []
    paid = FeeEntry(
        day=date(2026, 10, 14),
        team=TeamId("Reds"),
        game=GameId("1"),
        what="paid",
        amount=Decimal(10),
    )
    waived = FeeEntry(
        day=date(2026, 10, 15),
        team=TeamId("Reds"),
        game=GameId("1"),
        what="waived",
        amount=Decimal("0.01"),
        why="Snow.",
    )
    assert found == (paid, paid, waived)


def test_every_fault_of_the_fees_comes_at_once() -> None:
    rows = (
        "2026-10-14,Redz,9,paid,0,\n2026-10-14,Reds,1,waived,10,\n"
        "2026-10-14,Reds,1,owed,ten,\n2026-10-14,Reds,,paid,-5,\n"
    )
    table = read_fees((FEES + rows).encode(), None, TEAMS, GAMES)[1]
    assert [(one.place.row, one.place.column, one.code) for one in table.faults] == [
        (4, "what", "unknown_value"),
        (4, "amount", "type"),
        (5, "game", "missing"),
        (5, "amount", "formula"),
        (5, "amount", "type"),
        (2, "team", "unknown_team"),
        (2, "game", "unknown_game"),
        (2, "amount", "range"),
        (3, "why", "missing"),
    ]


@pytest.mark.parametrize(("paid", "over"), [("40", ()), ("40.01", ("0.01",))])
def test_money_for_what_costs_nothing_and_money_beyond_a_fee_are_doubts(
    paid: str, over: tuple[str, ...]
) -> None:
    due = Due(
        team=TeamId("Reds"),
        game=GameId("1"),
        cause="forfeit",
        amount=Decimal(40),
        paid=Decimal(paid),
    )
    beyond = [
        Fault(
            code="overpaid",
            place=Place(file="fees.csv"),
            says=f"Reds owed 40 for game 1; {amount} too much is settled.",
            cure="Mend the amounts, or give the rest back.",
            level="doubt",
        )
        for amount in over
    ]
    assert list(fee_doubts(Ledger(dues=(due,)))) == beyond
    stray = FeeEntry(
        day=EVENING[0],
        team=TeamId("Reds"),
        game=GameId("2"),
        what="paid",
        amount=Decimal(40),
    )
    assert list(fee_doubts(Ledger(idle=(stray,)))) == [
        Fault(
            code="no_fee",
            place=Place(file="fees.csv"),
            says="40 is paid by Reds for game 2, which costs it nothing.",
            cure="Mend the team or the game, or give the money back.",
            level="doubt",
        )
    ]
