"""Says a situation in the words of its facts."""

from collections.abc import Mapping

from wholeball.rulings.space import Space


def situation_in_words(facts: Mapping[str, str], space: Space) -> str:
    """Return a situation as its questions and answers, in the order in which they are asked."""
    return " ".join(
        f"{fact.question} {fact.values[facts[fact.name]].capitalize()}."
        for fact in space.facts
        if fact.name in facts
    )
