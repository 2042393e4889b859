"""Writes articles down briefly: the stage first, then name, words and section of the Laws."""

from collections.abc import Mapping
from dataclasses import dataclass

from wholeball.rulings.article import Article

Pairs = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Writer:
    """Writes articles of one stage."""

    stage: str

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
        return Article(
            name=name,
            stage=self.stage,
            says=says,
            law=law,
            when=when or {},
            outcome=outcome,
            then=then or {},
            over=over,
            path=path,
            given=given or {},
        )
