"""Turns a question or a ruling into plain values, for other programs."""

from collections.abc import Iterable

from wholeball.usecases.ask_ruling import Question, Ruled
from wholeball.usecases.propose_facts import Reading


def question_values(question: Question, proposed: Iterable[Reading]) -> dict[str, object]:
    """Return the fact that is lacking, and what a text was taken to say, none of it taken."""
    said = question.fact.values
    return {
        "ruling": None,
        "lacks": {
            "fact": question.fact.name,
            "question": question.fact.question,
            "values": {value: said[value] for value in question.values},
        },
        "proposed": [
            {"space": one.space.name, "facts": dict(one.facts), "score": one.score}
            for one in proposed
        ],
    }


def ruled_values(ruled: Ruled) -> dict[str, object]:
    """Return a ruling with its words, its articles and what is different here."""
    words = ruled.words
    return {
        "asked": dict(ruled.asked),
        "ruling": dict(ruled.ruling.answers),
        "lacks": None,
        "words": {
            "decision": list(words.decision),
            "shown": words.shown,
            "signals": [{"says": one.says, "source": one.source} for one in words.signals],
            "say": words.say,
            "care": words.care,
            "cautions": [
                {"title": one.title, "says": one.says, "source": one.source}
                for one in words.cautions
            ],
        },
        "articles": [
            {
                "name": claim.name,
                "stage": claim.stage,
                "ref": claim.ref,
                "kind": claim.kind,
                "path": claim.path,
                "says": claim.says,
            }
            for claim in ruled.ruling.articles
        ],
        "different": _different(ruled),
    }


def _different(ruled: Ruled) -> dict[str, object] | None:
    found = ruled.different
    if found is None:
        return None
    return {
        "laws": list(found.laws),
        "articles": [
            {
                "path": one.told.path,
                "ref": one.told.ref,
                "title": one.told.title,
                "here": [str(sentence) for sentence in one.here],
                "laws": [str(sentence) for sentence in one.laws],
                "laws_ref": one.laws_ref,
            }
            for one in found.articles
        ],
    }
