"""Writes articles down briefly: the stage first, then name, words and section of the Laws."""

from collections.abc import Mapping
from typing import Protocol

from wholeball.rulings.article import Article

Pairs = Mapping[str, str]


class Writer(Protocol):
    """Writes an article of one stage."""

    def __call__(  # noqa: PLR0913 - the keys of an article, each by name
        self,
        name: str,
        says: str,
        law: str,
        *,
        when: Pairs | None = None,
        outcome: str | None = None,
        then: Pairs | None = None,
        over: str = "",
        path: str | None = None,
        given: Pairs | None = None,
    ) -> Article:
        """Return the article."""


def of_stage(stage: str) -> Writer:
    """Return what writes the articles of a stage."""

    def write(  # noqa: PLR0913 - the keys of an article, each by name
        name: str,
        says: str,
        law: str,
        *,
        when: Pairs | None = None,
        outcome: str | None = None,
        then: Pairs | None = None,
        over: str = "",
        path: str | None = None,
        given: Pairs | None = None,
    ) -> Article:
        return Article(
            name=name,
            stage=stage,
            says=says,
            law=law,
            when=when or {},
            outcome=outcome,
            then=then or {},
            over=over,
            path=path,
            given=given or {},
        )

    return write
