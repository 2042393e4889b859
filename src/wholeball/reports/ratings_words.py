"""Says in words what ratings come to, which to look at, and what the model can tell.

All of it is for the coordinator: captains and the public see no rating.
"""

from collections.abc import Iterator
from typing import Final

from wholeball.reports.figures import fraction_text
from wholeball.rulebook.sentence import counted, listed
from wholeball.rulebook.tables.season import Ratings
from wholeball.rulebook.words.amounts import plain
from wholeball.season.ratings import (
    Gate,
    RatedGame,
    SeasonRatings,
    TeamRatings,
    ToReview,
    Why,
)
from wholeball.season.severity import (
    GAMES_LEAST,
    OFFICIALS_LEAST,
    Estimate,
    OfficialEstimate,
    Severity,
    Untold,
)

NOBODY: Final = "The rulebook has nobody rate sportsmanship."
NOTHING_TO_REVIEW: Final = "No rating has to be looked at."
NO_TEAM_DIFFERS: Final = "No detectable difference between teams."
NO_OFFICIAL_DIFFERS: Final = "No detectable difference between officials."
PRIVATE: Final = (
    "For the coordinator alone. No estimate counts anywhere; talk to people before you judge."
)
UNTOLD: Final[dict[Untold, str]] = {
    "nobody": "No rating has the name of the official who gave it: list the crews of games.",
    "too_few": "There are too few ratings by officials to tell anything from.",
    "one_value": "All officials gave one value to all: no detectable difference.",
    "nothing_left": "Too few ratings to tell teams, officials and chance apart.",
}
_WHY: Final[dict[Why, str]] = {
    "floor": "A rating of {floor} or lower goes to the coordinator.",
    "no_reason": "A rating of {low} or lower needs a written reason, and this one has none.",
    "above_cap": "A side with a red gets at most {cap}; that is what counts.",
}


def rules_line(rules: Ratings) -> str:
    """Say from when an average counts and what the play-offs need."""
    return (
        f"An average counts from {counted(rules.minimum_count, 'rated game')} on, and play-offs "
        f"need {plain(rules.play_off_minimum)}; nothing is rounded."
    )


def average_text(team: TeamRatings) -> str:
    """Return a team's average, or that it has none yet."""
    return "none yet" if team.average is None else fraction_text(team.average)


def gate_text(gate: Gate, rules: Ratings) -> str:
    """Say whether an average is enough for the play-offs."""
    match gate:
        case "passes":
            return "enough"
        case "below":
            return f"below {plain(rules.play_off_minimum)}"
        case "too_few":
            return "too few games"


def by_rule(found: SeasonRatings) -> Iterator[str]:
    """Yield a line for each game that counts otherwise than somebody rated it."""
    for team in found.teams:
        for game in team.games:
            if game.source != "rated":
                yield f"{team.team}, game {game.game}: {_by_rule(game)}"


def _by_rule(game: RatedGame) -> str:
    counts = fraction_text(game.counts)
    if game.was is None:
        return f"{counts}, which a game given up brings."
    return f"{counts} counts of {fraction_text(game.was)}, after a red."


def review_line(one: ToReview, rules: Ratings) -> str:
    """Say which rating is to be looked at, and why."""
    rated = one.rated
    why = _WHY[one.why].format(
        floor=plain(rules.floor),
        low=plain(rules.reason_at_or_below),
        cap=plain(rules.cap_after_sending_off),
    )
    reason = f' Reason given: "{rated.reason.strip()}".' if rated.reason.strip() else ""
    return f"{rated.team}, game {rated.game}: {plain(rated.value)}, {_who(one)}. {why}{reason}"


def _who(one: ToReview) -> str:
    match one.rated.by:
        case "opponent":
            return "given by the opponents"
        case None:
            return "given by somebody whom no list names"
        case "official" | "second_official":
            return f"given by {one.rated.official or 'an official whom no crew names'}"


def estimate_text(found: Estimate | None) -> tuple[str, str]:
    """Return an estimate and its interval, two figures after the point."""
    if found is None:
        return "not told", ""
    return f"{found.value:.2f}", f"{found.low:.2f} to {found.high:.2f}"


def rates_text(one: OfficialEstimate) -> tuple[str, str, str]:
    """Say how an official rates against a typical one, between what, and what that shows."""
    if one.rates is None:
        return "too few games", "", ""
    value, low, high = one.rates.value, one.rates.low, one.rates.high
    way = "higher" if value > 0 else "lower"
    shows = (
        f"rates {way} than a typical official" if one.stands_out else "no detectable difference"
    )
    return f"{value:+.2f}", f"{low:+.2f} to {high:+.2f}", shows


def group_lines(found: Severity) -> Iterator[str]:
    """Yield what cannot be compared; nothing where all teams hang together."""
    if found.groups < 2:
        return
    yield "Not comparable, since no official rated teams of both:"
    for group in range(1, found.groups + 1):
        teams = tuple(one.team for one in found.teams if one.group == group)
        officials = tuple(one.official for one in found.officials if one.group == group)
        yield f"  Group {group}: {listed(teams)}; rated by {listed(officials)}."


def notes(found: Severity) -> Iterator[str]:
    """Yield what the model leaves out or takes for granted, and officials of one value."""
    if not found.enough_officials:
        yield (
            f"Of single officials nothing is told before {OFFICIALS_LEAST} of them have "
            f"{GAMES_LEAST} games each (our own rule of thumb)."
        )
    for one in found.officials:
        if one.always is not None:
            yield f"{one.official} gave {one.always:g} in all {one.ratings} ratings."
    if found.shared:
        yield _crews(found)
    yield (
        "Ratings that a rule brings or holds down, and those of opponents, are left out. "
        "Whether a side won is not allowed for."
    )


def _crews(found: Severity) -> str:
    said = (
        f"Two officials rated the same side {counted(found.shared, 'time')}, alike in "
        f"{found.same} of them"
    )
    if found.as_one:
        return f"{said}: the two count as one rating."
    return f"{said}: they count as two ratings, so if crews confer, intervals are too narrow."
