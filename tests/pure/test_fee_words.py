"""Money is said with two decimals or none, and what is owed with games, article and who waits."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.fee_words import money, owed_words
from wholeball.rulebook.load import load
from wholeball.season.fees import Due, Ledger

BLUES = TeamId("Blues")


@pytest.mark.parametrize(
    ("amount", "says"),
    [
        ("0", "0"),
        ("0.00", "0"),
        ("0.01", "0.01"),
        ("7.5", "7.50"),
        ("20", "20"),
        ("20.00", "20"),
        ("999.99", "999.99"),
        ("1000", "1,000"),
        ("1000.5", "1,000.50"),
        ("12.3450", "12.345"),
        ("1E+3", "1,000"),
    ],
)
def test_an_amount_is_whole_or_has_two_decimals_at_least(amount: str, says: str) -> None:
    assert money(Decimal(amount)) == says


@given(st.decimals(min_value=0, max_value=999_999, places=4))
def test_an_amount_is_said_exactly(amount: Decimal) -> None:
    assert Decimal(money(amount).replace(",", "")) == amount


@pytest.mark.parametrize(
    ("waits", "more"),
    [(True, ", and its captain may not play until it is settled"), (False, "")],
)
def test_what_is_owed_is_one_sum_with_every_open_game(waits: bool, more: str) -> None:  # noqa: FBT001 - a case
    book = load(
        b'base = "laws-2025-26"\n[forfeit.fee]\nref = "H 10.5"\namount = 20\n',
        file="house.toml",
    ).rulebook
    dues = tuple(
        Due(
            team=BLUES,
            game=GameId(game),
            cause="forfeit",
            amount=Decimal(20),
            paid=Decimal(paid),
        )
        for game, paid in (("1", "20"), ("2", "12.5"), ("3", "0"))
    )
    says = owed_words(Ledger(dues=dues, captain_waits=waits), BLUES, book)
    assert str(says) == f"Blues owes 27.50 for games 2 and 3 (H 10.5){more}."
