"""Says how much money something is, and what a fee is due for."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from wholeball.kernel.identity import TeamId
from wholeball.reports.person_words import article_name
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Sentence, listed, say
from wholeball.season.fees import Cause, Ledger, Settling

_CAUSES: Final[Mapping[Cause, str]] = {
    "forfeit": "a forfeit",
    "both_forfeit": "a forfeit of both sides",
    "default_beyond": "a default beyond those allowed, so a forfeit",
}
SETTLED: Final[Mapping[Settling, str]] = {"paid": "paid", "waived": "waived"}


def money(amount: Decimal) -> str:
    """Return an amount with two decimals at least, or none where it is whole: "20", "7.50"."""
    if amount == amount.to_integral_value():
        return f"{amount:,.0f}"
    more = -int(amount.normalize().as_tuple().exponent)
    return f"{amount:,.{max(more, 2)}f}"


def cause_words(cause: Cause) -> str:
    """Return what a fee is due for."""
    return _CAUSES[cause]


def owed_words(ledger: Ledger, team: TeamId, book: Rulebook) -> Sentence:
    """Return what a team owes and for which games, by which article, and who waits for it."""
    due = tuple(one.game for one in ledger.dues if one.team == team and one.open)
    games = "game" if len(due) == 1 else "games"
    waits = ", and its captain may not play until it is settled" if ledger.captain_waits else ""
    return say(
        f"{{team}} owes {{amount}} for {games} {{games}} ({{ref}}){waits}.",
        team=team,
        amount=money(ledger.open_by_team()[team]),
        games=listed(due),
        ref=article_name("forfeit.fee", book),
    )
