"""Makes the page of the draws of lots: what was promised, what was drawn, and how to check it."""

from collections.abc import Sequence
from dataclasses import dataclass

from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.season.draw import Commitment, Draw


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawTold:
    """One draw; `files` are the names and addresses of what checks it, once it was held."""

    commitment: Commitment
    drawn: Draw | None
    files: Sequence[tuple[str, str]]


def draws_page(draws: Sequence[DrawTold], *, league: str, shell: Shell, here: str) -> str:
    """Return the page of all draws of a season."""
    return rendered(
        "draws.html",
        Page(
            here=here,
            title="Lots",
            spot=Spot.counting(len(draws), "draw"),
        ),
        shell,
        draws=draws,
        league=league,
    )
