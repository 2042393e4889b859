"""Lists what in a table does not stand as it was played: rulings, forfeits, deductions."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.reports.figures import score
from wholeball.reports.game_entries import WHY_FORFEITED, capital
from wholeball.reports.reasons import Names
from wholeball.rulebook.sentence import Sentence, counted, say
from wholeball.season.count import Counting, Deduction, games
from wholeball.season.leaving import Games
from wholeball.season.recorded import at_fault
from wholeball.season.result import How, Result
from wholeball.season.ruling import Ruling
from wholeball.season.season import Season, regulation, upheld_in
from wholeball.season.upheld import Out, Upheld

GIVEN_UP: Final[dict[How, str]] = {"forfeit": "forfeited", "default": "defaulted"}
_GAMES: Final[dict[Games, str]] = {
    "annulled": "its games do not count",
    "kept": "the games it has played still count, the rest do not",
    "rest_forfeited": "the games it has played still count, and it forfeits the rest",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that does not stand as played: what, in a sentence, and its reason.

    `result` is that of the game it is about, `ruling` the one that changed it, if there is one.
    """

    says: Sentence
    why: str
    result: Result | None = None
    ruling: Ruling | None = None


def not_as_played(
    season: Season, pool: PoolId, *, shown: int, is_newest: bool, names: Names
) -> tuple[Change, ...]:
    """Return what in a pool's table after round `shown` does not stand as played.

    Teams that are out come first, then games, then deductions, then games whose logs are
    damaged; the newest table has all deductions.
    """
    members = frozenset(season.league.pools[pool])
    taken = (one for one in season.deductions if one.team in members)
    stand = upheld_in(season, pool, up_to=shown)
    gone = (Change(says=out_of_league(one, names), why="") for one in stand.out)
    odd = changes(
        stand,
        tuple(one for one in taken if one.round <= shown or is_newest),
        regulation(season.rulebook).counting,
        names,
        notes_of(season),
        {one.number: one for one in season.rulings},
    )
    damaged = (
        Change(says=_damaged(one, names), why="", result=one)
        for one in stand.results
        if one.game in season.damaged
    )
    return (*gone, *odd, *damaged)


def changes(
    stand: Upheld,
    deductions: tuple[Deduction, ...],
    counting: Counting,
    names: Names,
    notes: Mapping[GameId, str],
    rulings: Mapping[int, Ruling] = MappingProxyType({}),
) -> tuple[Change, ...]:
    """Return the games that count otherwise than played or were ruled on, then the deductions.

    `rulings` are by their numbers.
    """
    found = []
    for one in stand.results:
        ruling = None if one.ruling is None else rulings.get(one.ruling)
        if one.game in stand.late:
            says = _late(one, counting, names, stand.late[one.game])
        elif one.how != "played" or one.played_score is not None or _is_changed(one, ruling):
            parts = _parts(one, counting, ruling, is_beyond=one.game in stand.beyond)
            says = _of_game(one, names, parts, ruling)
        else:
            continue
        reasons = ("" if ruling is None else ruling.why, notes.get(one.game, ""))
        why = " ".join(reason for reason in reasons if reason)
        found.append(Change(says=says, why=why, result=one, ruling=ruling))
    taken = (Change(says=_deduction(one, names), why=one.why) for one in deductions)
    return (*found, *taken)


def notes_of(season: Season) -> dict[GameId, str]:
    """Return what is said of each game beside its score: its note, or why it was forfeited."""
    reasons = {game: f"{capital(WHY_FORFEITED[why])}." for game, why in season.given_up.items()}
    return {**reasons, **season.notes}


def _is_changed(result: Result, ruling: Ruling | None) -> bool:
    """Tell whether a ruling leaves a game otherwise than it was played."""
    return result.ruling is not None and (ruling is None or ruling.ruled != "stands")


def as_counted(result: Result, counting: Counting) -> tuple[int, int]:
    """Return the goals of home and away that the table counts; 0 and 0 for no game."""
    if not counting.counts(result):
        return 0, 0
    teams: dict[TeamId, int] = {result.home: 0, result.away: 1}
    counted_as = games([result], teams, counting)
    return int(counted_as.home_goals[0]), int(counted_as.away_goals[0])


def as_awarded(result: Result, counting: Counting) -> tuple[int, int]:
    """Return the goals that the rules award for a game given up, whether they count or not."""
    forfeit, default = (
        replace(rule, counts_in_difference=True)
        for rule in (counting.forfeit, counting.default)
    )
    return as_counted(result, replace(counting, forfeit=forfeit, default=default))


def forfeit_points(stand: Upheld, counting: Counting) -> dict[TeamId, int]:
    """Return the points below nought that forfeits brought each team that has any."""
    each, taken = counting.forfeit.points_loser or 0, Counter[TeamId]()
    for result in stand.results:
        if each < 0 and counting.counts(result):
            taken.update(dict.fromkeys(at_fault(result), each))
    return dict(taken)


def out_of_league(out: Out, names: Names) -> Sentence:
    """Return the sentence that says which team is out, by which article, and its games."""
    return say(
        f"{{team}} is out of the league after {{forfeits}}, by {{ref}}; {_GAMES[out.games]}.",
        team=names.get(out.team, out.team),
        forfeits=counted(out.forfeits, "forfeit"),
        ref=out.ref,
    )


def _of_game(
    result: Result, names: Names, parts: Iterable[str], ruling: Ruling | None = None
) -> Sentence:
    return say(
        "Game {game}, {home} v {away}: " + "; ".join(parts) + ".",
        game=result.game,
        home=names.get(result.home, result.home),
        away=names.get(result.away, result.away),
        number=result.ruling,
        ref=None if ruling is None else ruling.ref,
    )


def _late(
    result: Result, counting: Counting, names: Names, gone: tuple[TeamId, ...]
) -> Sentence:
    """Return the sentence of a game that was listed after one of its teams was out."""
    return _of_game(result, names, _late_parts(result, counting, gone))


def _late_parts(result: Result, counting: Counting, gone: tuple[TeamId, ...]) -> Iterator[str]:
    if result.played_score is not None:
        yield f"played {score(*result.played_score)}"
    who = " and ".join("{home}" if team == result.home else "{away}" for team in gone)
    because = f"because {who} {'were' if len(gone) > 1 else 'was'} out by then"
    if not counting.counts(result):
        yield f"left out, {because}"
        return
    yield f"forfeited by {who}, {because}"
    yield "both lose" if result.how == "double_forfeit" else _counts(result, counting)
    yield from _penalty(result, counting)


def _parts(
    result: Result, counting: Counting, ruling: Ruling | None, *, is_beyond: bool
) -> Iterator[str]:
    """Return what was played, and what stands, with names and the ruling to be filled in."""
    if result.played_score is not None:
        yield f"played {score(*result.played_score)}"
    by = _by_ruling(result, ruling)
    if ruling is not None and ruling.ruled == "stands":
        yield from _standing(result, counting, "", is_beyond=is_beyond)
        yield f"stands{by}"
    else:
        yield from _standing(result, counting, by, is_beyond=is_beyond)


def _damaged(result: Result, names: Names) -> Sentence:
    """Return the sentence of a game that counts although entries of its log are not whole."""
    return _of_game(result, names, ["counts by what can be read; part of its log is damaged"])


def _by_ruling(result: Result, ruling: Ruling | None) -> str:
    """Return what a game was ruled by, where that is numbered, with its article."""
    if result.ruling is None:
        return ""
    cited = " ({ref})" if ruling is not None and ruling.ref else ""
    return f" by ruling {{number}}{cited}"


def _standing(result: Result, counting: Counting, by: str, *, is_beyond: bool) -> Iterator[str]:
    at_fault = "{home}" if result.by == "home" else "{away}"
    match result.how:
        case "annulled":
            yield f"annulled{by}, counts for nothing"
            return
        case "double_forfeit":
            both = "both lose" if counting.counts(result) else "counts for nothing"
            yield f"forfeited by both, {both}"
            yield from _penalty(result, counting)
            return
        case "forfeit" | "default":
            late = ", beyond its defaults, so a forfeit" if is_beyond else by
            yield f"{'defaulted' if is_beyond else GIVEN_UP[result.how]} by {at_fault}{late}"
        case "played" if result.played_score is None:
            yield f"played {score(result.home_goals, result.away_goals)}"
            return
        case "awarded" | "played":
            goals = score(result.home_goals, result.away_goals)
            yield f"awarded {goals}{by or ' by ruling'}"
            return
    yield _counts(result, counting)
    yield from _penalty(result, counting)


def _counts(result: Result, counting: Counting) -> str:
    goals = as_counted(result, counting)
    if any(goals):
        return f"counts {score(*goals)}"
    winner = "{away}" if result.by == "home" else "{home}"
    return f"won by {winner} {score(*as_awarded(result, counting))}; its goals do not count"


def _penalty(result: Result, counting: Counting) -> Iterator[str]:
    """Return the points that a forfeit costs, where it brings fewer than none."""
    each = counting.forfeit.points_loser or 0
    if each >= 0 or not counting.counts(result) or not at_fault(result):
        return
    points = counted(-each, "point")
    if result.how == "double_forfeit":
        yield f"{points} off each for the forfeit"
    else:
        yield f"{points} off {'{home}' if result.by == 'home' else '{away}'} for the forfeit"


def _deduction(deduction: Deduction, names: Names) -> Sentence:
    given = deduction.points < 0
    return say(
        "{team}: {points} "
        + ("given" if given else "taken off")
        + " from round {round} on, by {ref}.",
        team=names.get(deduction.team, deduction.team),
        points=counted(abs(deduction.points), "point"),
        round=deduction.round,
        ref=deduction.ref,
    )
