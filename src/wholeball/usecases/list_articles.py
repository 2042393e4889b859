"""Lists every fact and article of the rulings, as the page of the reference."""

from collections.abc import Iterator
from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.condition import When
from wholeball.rulings.fact import Fact
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import PROVED

_HEAD: Final = """# Rulings: facts and articles

Made by `wholeball rulebook facts`; do not edit by hand.

A situation is a value for every fact that is asked, in this order. A is the side that acts, offends or
touched the ball last; at a restart, the side that takes it. A fact is asked only where an article that may
still apply reads it, so a rulebook that plays no offside asks nothing about it.

An article claims parts of the answer where its conditions hold, and may displace others. What no standing
article answers is a gap, what two answer differently a conflict; `wholeball rulebook prove FILE` walks
every situation and finds both. "Live where" names the values of the rulebook under which an article is one.
"""


def articles_as_markdown() -> str:
    """Return the page docs/reference/rulings.md."""
    return "\n".join([_HEAD, *(line for space in PROVED for line in _space(space))])


def _space(space: Space) -> Iterator[str]:
    yield f"## Facts: {space.name}\n"
    for fact in space.facts:
        yield from _fact(fact)
    yield f"## Articles: {space.name}\n"
    yield "| article | stage | says | where | live where |"
    yield "| --- | --- | --- | --- | --- |"
    yield from (_article(article) for article in space.articles)
    yield ""


def _fact(fact: Fact) -> Iterator[str]:
    yield f"### `{fact.name}` ({fact.stage})\n"
    yield f"{fact.question}\n"
    yield from (f"- `{value}`: {phrase}" for value, phrase in fact.values.items())
    for cut in fact.cuts:
        shut = ", ".join(f"`{value}`" for value in fact.values if value in cut.values)
        yield f"- not {shut} where {_when(cut.when)}: {cut.because}"
    yield ""


def _when(when: When) -> str:
    return " and ".join(f"{name} is {' or '.join(sorted(one))}" for name, one in when.items())


def _article(article: Article) -> str:
    where = f"`[{article.path}]`, {article.law}" if article.path else article.law
    live = "; ".join(f"`{key}` {words}" for key, words in article.given.items()) or "always"
    return f"| `{article.name}` | {article.stage} | {article.says} | {where} | {live} |"
