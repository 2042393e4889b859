"""Names a rulebook by its digest, so that what is made of it can be kept."""

from dataclasses import dataclass, field

from wholeball.rulebook.book import Rulebook


@dataclass(frozen=True, slots=True, kw_only=True)
class ByDigest:
    """A rulebook that is known by its digest alone: equal digests are one rulebook."""

    digest: str
    book: Rulebook = field(compare=False)


def by_digest(book: Rulebook) -> ByDigest:
    """Return a rulebook with its digest."""
    return ByDigest(digest=book.digest, book=book)
