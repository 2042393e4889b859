"""Reads what an address of the study says: which facts, in which order they were answered."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final
from urllib.parse import urlencode

from django.core.exceptions import BadRequest
from django.http import Http404, HttpRequest

from wholeball.rulings.space import Space
from wholeball.rulings.spaces import SPACES
from wholeball.usecases.propose_facts import MOST_TEXT

ABOUT: Final = "about"
SAID: Final = "said"
UNKNOWN: Final = "unknown"
_SPACES: Final[Mapping[str, Space]] = {space.name: space for space in SPACES}
_FACTS: Final = tuple(fact.name for space in SPACES for fact in space.facts)
_WHOLE: Final = re.compile(r"[1-9][0-9]{0,3}", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """What was answered so far, in order, as the address has it.

    `pairs` holds what it is about, the facts, and the text that the facts before it were taken
    from; `is_unknown` is set where somebody cannot answer the question that follows.
    """

    pairs: tuple[tuple[str, str], ...]
    is_unknown: bool

    @property
    def about(self) -> str:
        """The space that it is about, or nothing."""
        return dict(self.pairs).get(ABOUT, "")

    @property
    def said(self) -> str:
        """The text in which somebody told it, or nothing."""
        return dict(self.pairs).get(SAID, "")

    @property
    def facts(self) -> dict[str, str]:
        """The facts, in the order in which they were answered."""
        return {name: value for name, value in self.pairs if name not in (ABOUT, SAID)}

    @property
    def back(self) -> str:
        """The address of the step before; what was taken from a text is taken back at once."""
        if self.is_unknown:
            return _address(self.pairs)
        last = self.pairs[-1:]
        is_taken = len(self.pairs) > 1 and last[0][0] == SAID
        return _address(last if is_taken else self.pairs[:-1])

    def before(self, fact: str) -> str:
        """Return the address at which a fact was not answered yet, nor what came after it."""
        names = [name for name, _ in self.pairs]
        at = names.index(fact)
        is_taken = SAID in names[at:]
        return _address(self.pairs[names.index(SAID) :][:1] if is_taken else self.pairs[:at])


def _address(pairs: tuple[tuple[str, str], ...]) -> str:
    return f"?{urlencode(pairs)}"


def answered(request: HttpRequest) -> Given:
    """Return what an address says of a situation.

    Raises:
        BadRequest: it has something that no page of ours writes.
    """
    found = asked(request, ABOUT, SAID, UNKNOWN, *_FACTS)
    pairs = tuple((name, value) for name, value in found.items() if name != UNKNOWN)
    given = Given(pairs=pairs, is_unknown=UNKNOWN in found)
    if len(given.said) > MOST_TEXT:
        raise BadRequest(f"At most {MOST_TEXT} characters are read.")
    if given.about or given.facts:
        _refuse_others(given)
    return given


def _refuse_others(given: Given) -> None:
    """Refuse facts of another space, and values that a fact does not have."""
    space = _SPACES.get(given.about)
    if space is None:
        raise BadRequest(f"Nothing is known about {given.about[:40]!a}.")
    values = {fact.name: fact.values for fact in space.facts}
    for name, value in given.facts.items():
        if value not in values.get(name, ()):
            raise BadRequest(f"{name} is never {value[:40]!a} there.")


def asked(request: HttpRequest, *known: str) -> dict[str, str]:
    """Return what stands behind the ? of an address, in its order.

    Raises:
        BadRequest: it has a key that the page does not know, one twice, or what is no text.
    """
    for name, values in request.GET.lists():
        if name not in known:
            raise BadRequest(f"This page knows no {name[:40]!a}.")
        if len(values) > 1:
            raise BadRequest(f"{name} is given twice.")
        if "\x00" in values[0] or "\ufffd" in values[0]:
            raise BadRequest(f"{name} has bytes that are no text.")
    return {name: str(value) for name, value in request.GET.items()}


def part(text: str) -> int:
    """Return the number of a part.

    Raises:
        Http404: it is none.
    """
    if _WHOLE.fullmatch(text) is None:
        raise Http404
    return int(text)
