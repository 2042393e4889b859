"""Says what a game counts as: as played, by its own end, by a ruling or by results.csv."""

from typing import Final, NamedTuple

from wholeball.game.happenings import Forfeited
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.reports.figures import score
from wholeball.reports.game_entries import WHY_FORFEITED
from wholeball.reports.game_statements import cited
from wholeball.reports.game_told import Settled, ToldGame, side_name
from wholeball.reports.not_as_played import as_awarded
from wholeball.rulebook.book import Path
from wholeball.rulebook.sentence import Sentence, say
from wholeball.season.season import regulation

_GIVEN_UP: Final[dict[str, str]] = {
    "forfeit": "forfeit of {by}",
    "default": "default of {by}",
    "double_forfeit": "forfeit of both sides",
    "annulled": "annulled",
}
_ARTICLES: Final[dict[str, Path]] = {
    "forfeit": "forfeit",
    "default": "forfeit.default",
    "double_forfeit": "forfeit.double",
}


class Counts(NamedTuple):
    """What a game counts as, if it has a result, and what was played, if anything was."""

    result: Score | None
    played: Score | None
    winner: Side | None


def counts(told: ToldGame) -> Counts:
    """Return what a game counts as by the last word about it."""
    state, settled = told.state, told.settled
    if settled is None:
        return Counts(state.result, state.played if told.was_played else None, state.winner)
    result, played = settled.result, _played(told, settled)
    if result.how == "annulled":
        return Counts(None, played, None)
    goals = Score(*as_awarded(result, regulation(told.rules.book).counting))
    if result.kicks is not None:
        return Counts(goals, played, _ahead(Score(*result.kicks)))
    if state.kicks is not None and result.how == "played":
        return Counts(goals, played, state.winner)
    return Counts(goals, played, _ahead(goals))


def counts_as(told: ToldGame) -> Sentence:
    """Return what was played and what it counts as: "Played 3-2, counts 0-3."."""
    settled, state = told.settled, told.state
    if settled is not None:
        by_ruling = settled.ruling is not None
        return _by_ruling(told, settled) if by_ruling else _as_listed(told, settled)
    if not told.has_entries:
        return say("Nothing is recorded yet.")
    if _would_become(told) is not None:
        return _official(told)
    if state.ending is not None and state.ending.how in _GIVEN_UP:
        return _given_up(told)
    if state.result is None:
        return say("No result yet; so far {played}.", played=score(*state.played))
    return _plain(state.result, state.played)


def _plain(result: Score, played: Score) -> Sentence:
    if result == played:
        return say("Counts {result}, as played.", result=score(*result))
    return say(
        "Played {played}, counts {result}.", played=score(*played), result=score(*result)
    )


def _given_up(told: ToldGame) -> Sentence:
    """Return what a game that a side gave up counts as, who, why and by which article."""
    state = told.state
    if state.ending is None:
        return _plain(state.score, state.played)
    how, ref = _GIVEN_UP[state.ending.how], cited(told.rules.book, state.ending.article)[0]
    reasons = [one.what.why for one in told.events if isinstance(one.what, Forfeited)]
    why = ": {why}" if reasons else ""
    start = "Played {played}; counts" if told.was_played else "Not played; counts"
    as_what = " for nothing" if state.result is None else " {result}"
    return say(
        f"{start}{as_what} ({how}{why}; {{ref}}).",
        played=score(*state.played),
        result="" if state.result is None else score(*state.result),
        by=side_name(told, state.ending.by),
        why=WHY_FORFEITED[reasons[-1]] if reasons else "",
        ref=ref,
    )


def _would_become(told: ToldGame) -> Score | None:
    """Return what the game would count as with entries that came too late, if that differs."""
    late = None if told.official is None else told.official.late
    if late is None or late.state.result == told.state.result:
        return None
    return late.state.result


def _official(told: ToldGame) -> Sentence:
    now, then = told.state.result, _would_become(told)
    return say(
        "Official: {now}, unchanged; with the late entries it would be {then}.",
        now="no result" if now is None else score(*now),
        then="no result" if then is None else score(*then),
    )


def _by_ruling(told: ToldGame, settled: Settled) -> Sentence:
    """Return what a ruling makes of a game, with its number, its article and its reason."""
    found, ruling = counts(told), settled.ruling
    start = "Counts for nothing" if found.result is None else "Counts {result}"
    match settled.result.how:
        case _ if ruling is not None and ruling.ruled == "stands":
            what = ", as played" if found.played in (None, found.result) else ""
            what += "; it stands"
        case "awarded":
            what = ", awarded"
        case "annulled":
            what = ", annulled"
        case "forfeit":
            what = ", forfeited by {by},"
        case _:
            what = ""
    cites = " ({ref})" if ruling is not None and ruling.ref else ""
    why = "" if ruling is None else ruling.why.strip().removesuffix(".")
    played = "" if found.played in (None, found.result) else " Played {played}."
    played = played or (" Not played." if found.played is None else "")
    return say(
        f"{start}{what} by ruling {{number}}{cites}{': {why}' if why else ''}.{played}",
        result="" if found.result is None else score(*found.result),
        by=side_name(told, settled.result.by),
        number=settled.result.ruling,
        ref="" if ruling is None else ruling.ref,
        why=why,
        played="" if found.played is None else score(*found.played),
    )


def _as_listed(told: ToldGame, settled: Settled) -> Sentence:
    """Return what a row of results.csv makes of a game."""
    found, result = counts(told), settled.result
    if result.how == "played" and found.result is not None:
        return _plain(found.result, found.played or found.result)
    path = _ARTICLES.get(result.how)
    how = "awarded" if result.how == "awarded" else _GIVEN_UP[result.how]
    why = settled.note.strip().removesuffix(".")
    start = "Not played" if found.played is None else "Played {played}"
    as_what = " for nothing" if found.result is None else " {result}"
    cites = "; {ref}" if path is not None else ""
    return say(
        f"{start}; counts{as_what} ({how}{': {why}' if why else ''}{cites}).",
        played="" if found.played is None else score(*found.played),
        result="" if found.result is None else score(*found.result),
        by=side_name(told, result.by),
        why=why,
        ref="" if path is None else cited(told.rules.book, path)[0],
    )


def _played(told: ToldGame, settled: Settled) -> Score | None:
    """Return the score as played: of the game's log, or of its row in results.csv."""
    result = settled.result
    if told.was_played:
        return told.state.played
    if result.played_score is not None:
        return Score(*result.played_score)
    if result.how == "played":
        return Score(result.home_goals, result.away_goals)
    return None


def _ahead(goals: Score) -> Side | None:
    if goals.home == goals.away:
        return None
    return "home" if goals.home > goals.away else "away"
