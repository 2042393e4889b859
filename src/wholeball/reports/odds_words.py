"""Says odds in words that claim no more than is known."""

from collections.abc import Iterator
from math import ceil
from typing import Final

from wholeball.kernel.identity import TeamId
from wholeball.rulebook.book import Rulebook
from wholeball.season.race import NoRace, Status
from wholeball.season.shares import NoOdds, Odds, Share

_NEAR: Final = 0.0005
"""What would be rounded to nought at one place after the point."""
STATUS: Final[dict[Status, str]] = {
    "clinched": "in for certain",
    "out": "out for certain",
    "depends_on_ties": "hangs on what parts level teams",
    "alive": "open",
}
NO_ODDS: Final[dict[str, str]] = {
    "no_play_offs": "The rulebook has no play-offs.",
    "no_teams": "No odds: there is no team yet.",
    "games_dropped_later": (
        "No odds: the games against the last of the larger pools will be dropped, and who is "
        "last is known at the end only."
    ),
    "games_dropped_by_lots": (
        "No odds: the games against the last of the larger pools are dropped, and nothing parts "
        "yet who is last."
    ),
}
NOT_PROVEN: Final[dict[str, str]] = {
    "no_play_offs": "Nothing to prove: the rulebook has no play-offs.",
    "not_by_points": "Nothing is proven: places do not hang on points first.",
    "games_dropped_later": "Nothing is proven: which games will be dropped is not known yet.",
}


def share_text(share: Share) -> str:
    """Return a chance with its error, rounded up: "62.3 % ± 0.5".

    Sure is only what is proven; what comes near to it is told by a bound.
    """
    if share.proven == "always":
        return "100 %"
    if share.proven == "never":
        return "0 %"
    bound = max(ceil(1000 * share.bound) / 10, 0.1) if share.hits in (0, share.seasons) else 0.1
    if share.hits == 0 or share.chance < _NEAR:
        return f"under {bound:g} %"
    if share.hits == share.seasons or share.chance > 1 - _NEAR:
        return f"over {100 - bound:g} %"
    error = ceil(1000 * share.error) / 10
    return f"{100 * share.chance:.1f} % \N{PLUS-MINUS SIGN} {error:.1f}"


def percent_text(chance: float) -> str:
    """Return a computed chance; what is not quite sure never reads as if it were."""
    if chance in (0.0, 1.0):
        return f"{100 * chance:.0f} %"
    if chance < _NEAR:
        return "under 0.1 %"
    if chance > 1 - _NEAR:
        return "over 99.9 %"
    return f"{100 * chance:.1f} %"


def notes(
    found: Odds, rulebook: Rulebook, proven: dict[TeamId, Status] | NoRace
) -> Iterator[str]:
    """Yield what to know about the odds before anybody builds on them."""
    yield (
        f"{found.seasons:,} seasons simulated, seed {found.seed}; {_games(found.left)} left; "
        f"strengths from {_games(found.fed_by)} played."
    )
    yield (
        "The error printed is that of simulating so many seasons. That few games tell little of "
        "how strong teams are comes on top, and no figure here holds it."
    )
    if isinstance(proven, NoRace):
        yield NOT_PROVEN[proven.why]
    else:
        yield (
            "For certain means proven: it holds whatever the games left bring, if they are "
            "played and no points are taken off."
        )
    if found.not_simulated:
        yield f"Not simulated: {', '.join(found.not_simulated)}."
    if found.by_chance:
        yield (
            f"In {found.by_chance:,} seasons a place hung on lots or on what is not simulated; "
            "chance stood in for it."
        )
    if rulebook.mercy.ladder:
        yield "A mercy rule cuts high scores short, so strong teams may be stronger than they look."


def no_odds_text(found: NoOdds) -> str:
    """Return why there are no odds."""
    return NO_ODDS[found.why]


def _games(number: int) -> str:
    return "1 game" if number == 1 else f"{number} games"
