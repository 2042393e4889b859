"""Keeps what somebody works on and has not published: a step at a time, each can be undone."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from wholeball.kernel.faults import WholeballError
from wholeball.store.models import Account, Draft, Season
from wholeball.store.writing import alone

MOST_STEPS: Final = 50
"""Steps that can be undone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """Whose draft, and of which file."""

    season: Season
    account: Account
    file: str


def draft_of(whose: Whose) -> Draft | None:
    """Return somebody's draft of a file, or None. 1 query."""
    return Draft.objects.filter(
        season=whose.season, account=whose.account, file=whose.file
    ).first()


def drafts_of(season: Season, file: str) -> list[Draft]:
    """Return everybody's drafts of a file, with whose they are. 1 query."""
    every = Draft.objects.filter(season=season, file=file)
    return list(every.select_related("account").order_by("pk"))


def keep_step(
    whose: Whose,
    text: str,
    *,
    base: str,
    step: int,
    why: str | None = None,
    lost: Sequence[Sequence[str]] | None = None,
) -> Draft:
    """Keep a step of a draft, begun upon `base` where there is none. 3 queries.

    `step` is the number of the step that was looked at, 0 where there was no draft.

    Raises:
        WholeballError: another step was made meanwhile, in another window.
    """
    with alone():
        draft = _of_step(whose, step) or Draft(
            season=whose.season, account=whose.account, file=whose.file, text=base
        )
        draft.before = [*draft.before, _step(draft)][-MOST_STEPS:]
        draft.text, draft.base = text, base
        draft.why = draft.why if why is None else why
        draft.lost = draft.lost if lost is None else [list(row) for row in lost]
        _save(draft)
    return draft


def step_back(whose: Whose, step: int) -> None:
    """Undo the last step; a draft without another is thrown away. 3 queries.

    Raises:
        WholeballError: another step was made meanwhile, or there is nothing to undo.
    """
    with alone():
        draft = _of_step(whose, step)
        if draft is None:
            raise WholeballError(
                "There is no step to undo.", fix="Nothing was changed.", code="missing"
            )
        if len(draft.before) < 2:
            draft.delete()
            return
        *draft.before, last = draft.before
        draft.text, draft.base = last["text"], last["base"]
        draft.lost, draft.why = last["lost"], last["why"]
        _save(draft)


def throw_away(whose: Whose, step: int) -> None:
    """Throw a draft away. 2 queries.

    Raises:
        WholeballError: another step was made meanwhile.
    """
    with alone():
        draft = _of_step(whose, step)
        if draft is not None:
            draft.delete()


def _of_step(whose: Whose, step: int) -> Draft | None:
    draft = draft_of(whose)
    if (0 if draft is None else draft.step) != step:
        raise WholeballError(
            "Your draft was changed in another window meanwhile.",
            fix="Nothing was lost. Look at the draft as it is now, and go on from there.",
            code="conflict",
        )
    return draft


def _step(draft: Draft) -> dict[str, object]:
    return {
        "text": draft.text,
        "base": draft.base or draft.text,
        "lost": draft.lost,
        "why": draft.why,
    }


def _save(draft: Draft) -> None:
    draft.step += 1
    draft.save()
