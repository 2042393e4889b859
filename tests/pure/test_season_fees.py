"""A forfeit costs what the rulebook says, until it is paid or waived."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import GameId, PoolId, Side, TeamId
from wholeball.league.league import League, Team
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import load
from wholeball.season.fees import Cause, Due, FeeEntry, Ledger, Settling, fees_of
from wholeball.season.result import How, Result
from wholeball.season.season import Season

REDS, BLUES = TeamId("Reds"), TeamId("Blues")
LEAGUE = League(
    name="Lantern Hill",
    timezone="Europe/London",
    first_day=date(2026, 9, 1),
    last_day=date(2026, 12, 1),
    teams=(Team(team=REDS, pool=PoolId("A")), Team(team=BLUES, pool=PoolId("A"))),
)


def house(*, fee: str, waits: str = "true", more: str = "") -> Rulebook:
    text = f'base = "laws-2025-26"\n[forfeit.fee]\namount = {fee}\n'
    text += f"captain_waits = {waits}\n" if fee != "0" else ""
    return load((text + more).encode(), file="house.toml").rulebook


FORTY = house(fee="40")
PLAYED = Result(game=GameId("1"), round=1, home=REDS, away=BLUES, home_goals=1)


def gone(game: str, how: How, *, round_: int = 1) -> Result:
    by: Side | None = "away" if how in ("forfeit", "default") else None
    return replace(PLAYED, game=GameId(game), how=how, by=by, home_goals=0, round=round_)


def season(*results: Result, book: Rulebook = FORTY) -> Season:
    return Season(league=LEAGUE, rulebook=book, results=results)


def entry(what: Settling, amount: str, *, game: str = "1", team: TeamId = BLUES) -> FeeEntry:
    return FeeEntry(
        day=date(2026, 10, 1), team=team, game=GameId(game), what=what, amount=Decimal(amount)
    )


def due(
    team: TeamId, game: str, paid: str = "0", waived: str = "0", *, cause: Cause = "forfeit"
) -> Due:
    return Due(
        team=team,
        game=GameId(game),
        cause=cause,
        amount=Decimal(40),
        paid=Decimal(paid),
        waived=Decimal(waived),
    )


@pytest.mark.parametrize(
    ("result", "dues"),
    [
        (PLAYED, ()),
        (gone("1", "annulled"), ()),
        (gone("1", "default"), ()),
        (gone("1", "forfeit"), (due(BLUES, "1"),)),
        (
            gone("1", "double_forfeit"),
            (due(REDS, "1", cause="both_forfeit"), due(BLUES, "1", cause="both_forfeit")),
        ),
    ],
)
def test_each_side_at_fault_owes_the_fee_once_and_a_default_in_time_owes_none(
    result: Result, dues: tuple[Due, ...]
) -> None:
    assert fees_of(season(result), ()) == Ledger(dues=dues, captain_waits=True)


def test_a_rulebook_without_a_fee_charges_nobody() -> None:
    found = fees_of(season(gone("1", "forfeit"), book=house(fee="0")), ())
    assert (found.dues, found.open_by_team()) == ((), {})


def test_paid_and_waived_parts_reduce_a_due_to_nothing_and_what_is_beyond_is_told() -> None:
    forfeited = season(gone("1", "forfeit"))
    most = fees_of(forfeited, [entry("paid", "15.50"), entry("waived", "24.49")])
    assert most.dues == (due(BLUES, "1", "15.50", "24.49"),)
    assert most.open_by_team() == {BLUES: Decimal("0.01")}
    assert most.captain_may_not_play(BLUES)
    whole = fees_of(forfeited, [entry("paid", "15.50"), entry("waived", "24.50")])
    assert (whole.open_by_team(), whole.dues[0].over) == ({}, Decimal(0))
    assert not whole.captain_may_not_play(BLUES)
    beyond = fees_of(forfeited, [entry("paid", "40.01")])
    assert (beyond.dues[0].open, beyond.dues[0].over) == (Decimal(0), Decimal("0.01"))


def test_a_captain_waits_only_where_the_rulebook_says_so() -> None:
    found = fees_of(season(gone("1", "forfeit"), book=house(fee="40", waits="false")), ())
    assert found.open_by_team() == {BLUES: Decimal(40)}
    assert not found.captain_may_not_play(BLUES)
    assert not fees_of(season(gone("1", "forfeit")), ()).captain_may_not_play(REDS)


def test_a_due_is_found_by_its_team_and_its_game_together() -> None:
    found = fees_of(season(gone("1", "forfeit"), gone("2", "double_forfeit")), ())
    assert found.due(BLUES, GameId("1")) == due(BLUES, "1")
    assert found.due(REDS, GameId("2")) == due(REDS, "2", cause="both_forfeit")
    assert (found.due(REDS, GameId("1")), found.due(BLUES, GameId("3"))) == (None, None)


def test_an_entry_for_a_game_that_costs_the_team_nothing_settles_nothing() -> None:
    stray = (entry("paid", "40", team=REDS), entry("paid", "40", game="2"))
    found = fees_of(season(gone("1", "forfeit"), replace(PLAYED, game=GameId("2"))), stray)
    assert (found.idle, found.dues) == (stray, (due(BLUES, "1"),))


def test_the_first_default_beyond_those_allowed_is_charged_and_the_last_allowed_is_not() -> (
    None
):
    book = house(
        fee="40",
        more='[forfeit.default]\nallowed = 1\nnotice_day = "day_before"\nnotice_by = 12:00:00\n',
    )
    results = (gone("1", "default", round_=1), gone("2", "default", round_=2))
    assert fees_of(season(*results, book=book), ()).dues == (
        due(BLUES, "2", cause="default_beyond"),
    )


@pytest.mark.parametrize("results", ["rest_forfeited", "annulled", "kept"])
def test_the_games_after_a_team_is_out_cost_it_nothing(results: str) -> None:
    more = f'[forfeit.removal]\nafter_forfeits = 2\nresults = "{results}"\n'
    games = [gone(str(number), "forfeit", round_=number) for number in (1, 2, 3)]
    found = fees_of(season(*games, book=house(fee="40", more=more)), ())
    assert found.dues == (due(BLUES, "1"), due(BLUES, "2"))


def test_a_forfeit_in_the_bracket_is_charged_too() -> None:
    found = replace(season(), play_offs=(gone("P1", "forfeit"),))
    assert fees_of(found, ()).dues == (due(BLUES, "P1"),)


@given(st.lists(st.tuples(st.sampled_from(["paid", "waived"]), st.integers(1, 9_999))))
def test_what_is_open_and_over_and_settled_always_adds_up(
    given_entries: list[tuple[Settling, int]],
) -> None:
    entries = [entry(what, str(Decimal(cents) / 100)) for what, cents in given_entries]
    (only,) = fees_of(season(gone("1", "forfeit")), entries).dues
    assert only.amount - only.open + only.over == sum(one.amount for one in entries)
    assert 0 in (only.open, only.over)
