"""Says in words what entries that came after a certification would change."""

from collections.abc import Iterator
from typing import Final, Literal

from wholeball.game.official import Late
from wholeball.game.state import Ended, Ending, GameState, Score
from wholeball.kernel.identity import Side
from wholeball.rulebook.sentence import counted, listed

_WINNERS: Final[dict[Side | None, str]] = {
    "home": "the home side",
    "away": "the away side",
    None: "nobody",
}
_ENDED: Final[dict[Ended | Literal[""], str]] = {
    "": "not yet",
    "full_time": "at full time",
    "mercy": "by the mercy rule",
    "overtime": "after overtime",
    "golden_goal": "by the first goal of overtime",
    "kicks": "by kicks from the mark",
    "complete": "broken off, and counted as complete",
    "forfeit": "by forfeit",
    "default": "by default",
    "double_forfeit": "by forfeit of both sides",
    "annulled": "annulled",
    "to_coordinator": "broken off, and left to the coordinator",
}
"""How a game ended, in words; empty where it has not."""


def case_words(late: Late, certified: GameState) -> str:
    """Return a clause: "1 entry came after the certification and would change the score: ..."."""
    came = f"{counted(len(late.entries), 'entry', 'entries')} came after the certification"
    changes = tuple(_changes(late, certified))
    if not changes:
        return f"{came} and would change nothing that counts"
    return f"{came} and would change {listed(changes)}"


def _changes(late: Late, certified: GameState) -> Iterator[str]:
    changed, then = late.would_change, late.state
    if "score" in changed:
        yield f"the score: {_become(_score(certified.score), _score(then.score))}"
    is_told = "score" in changed and all(one.result == one.score for one in (certified, then))
    if "result" in changed and not is_told:
        yield f"what counts: {_become(_score(certified.result), _score(then.result))}"
    if "kicks" in changed:
        yield f"kicks from the mark: {_become(_kicks(certified), _kicks(then))}"
    if "winner" in changed and ("kicks" in changed or not {"score", "result"} & {*changed}):
        yield f"the winner: {_become(_WINNERS[certified.winner], _WINNERS[then.winner])}"
    if "ending" in changed:
        yield _ending(certified.ending, then.ending)
    if "ratings" in changed:
        yield "the ratings"
    if "cards" in changed:
        yield "yellow and red"


def _ending(before: Ending | None, after: Ending | None) -> str:
    hows = [_ENDED["" if one is None else one.how] for one in (before, after)]
    if hows[0] != hows[1]:
        return f"how it ended: {_become(*hows)}"
    is_by_other = before is not None and after is not None and before.by != after.by
    return "who gave it up" if is_by_other else "when it ended"


def _become(before: str, after: str) -> str:
    return f"{before} would become {after}"


def _kicks(state: GameState) -> str:
    return "none" if state.kicks is None else _score(state.kicks.scored)


def _score(score: Score | None) -> str:
    return "no result" if score is None else f"{score.home}-{score.away}"
