"""Says in words what entries that came after a certification would change."""

from collections.abc import Iterator

from wholeball.game.official import Late
from wholeball.game.state import GameState, Score
from wholeball.rulebook.sentence import counted, listed


def case_words(late: Late, certified: GameState) -> str:
    """Return a clause: "1 entry came after the certification and would change the score: ..."."""
    came = f"{counted(len(late.entries), 'entry', 'entries')} came after the certification"
    changes = tuple(_changes(late, certified))
    if not changes:
        return f"{came} and would change nothing that counts"
    return f"{came} and would change {listed(changes)}"


def _changes(late: Late, certified: GameState) -> Iterator[str]:
    if "score" in late.would_change:
        yield f"the score: {_score(certified.score)} -> {_score(late.state.score)}"
    if "result" in late.would_change and late.state.result != late.state.score:
        yield f"what counts: {_score(certified.result)} -> {_score(late.state.result)}"
    if "cards" in late.would_change:
        yield "yellow and red"


def _score(score: Score | None) -> str:
    return "no result" if score is None else f"{score.home}-{score.away}"
