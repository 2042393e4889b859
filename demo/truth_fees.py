"""Says what forfeits cost, and what of it came in."""

from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from demo.house import House
from demo.truth_tables import Outcome

_HALF_PAID = 10


class Payment(NamedTuple):
    """Money that came in for a forfeit, or that was waived."""

    team: str
    game: str
    what: Literal["paid", "waived"]
    amount: int
    why: str = ""


def payments(outcomes: Iterable[Outcome], rules: House) -> Iterator[Payment]:
    """Yield what came in: a team pays its first forfeit only, and one by a ruling not at all.

    Of a double forfeit the away team pays a part, and the rest is waived.
    """
    paid: set[str] = set()
    for one in outcomes:
        for team in () if one.was_played else one.at_fault:
            if team in paid:
                continue
            paid.add(team)
            if one.how == "double_forfeit" and team == one.away:
                yield Payment(team, one.game, "paid", _HALF_PAID)
                rest = rules.fee - _HALF_PAID
                yield Payment(team, one.game, "waived", rest, "the bus did not come")
            else:
                yield Payment(team, one.game, "paid", rules.fee)


def dues(known: Iterable[Outcome], rules: House) -> dict[tuple[str, str], int]:
    """Return what each forfeit costs, by team and game; none comes after a team is out here."""
    return {(team, one.game): rules.fee for one in known for team in one.at_fault}


def still_open(
    outcomes: Iterable[Outcome], known: Iterable[Outcome], rules: House
) -> dict[str, int]:
    """Return what each team still owes, those that owe something."""
    owed: dict[str, int] = {}
    for (team, _), amount in dues(known, rules).items():
        owed[team] = owed.get(team, 0) + amount
    for one in payments(outcomes, rules):
        owed[one.team] -= one.amount
    return {team: amount for team, amount in owed.items() if amount}
