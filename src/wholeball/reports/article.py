"""Gathers what a reader needs of each article: its words, its kind, its reason, the Laws'."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.differences import Compared, compared
from wholeball.rulebook.editions import edition
from wholeball.rulebook.sentence import Sentence, say
from wholeball.rulebook.value import Article, Kind
from wholeball.rulebook.words.lookup import words

KIND_WORDS: Final[dict[Kind, str]] = {
    "law": "Law",
    "permitted": "permitted",
    "local": "local",
    "administrative": "administrative",
}
KINDS_SAY: Final[dict[Kind, str]] = {
    "law": "as in the Laws of the Game",
    "permitted": "changed where the Laws let a competition choose",
    "local": "different from the Laws by this house's own choice",
    "administrative": "settled by the house where the Laws leave it to the competition",
}
CHAPTERS: Final[dict[Path, str]] = {
    "field": "The field and the people",
    "game": "The game",
    "free_kick": "Restarts and conduct",
    "forfeit": "Around the games",
}
"""The chapters of a booklet, by the article each starts with."""


def anchor_of(path: Path) -> str:
    """Return the id of an article on the rulebook's page and in its PDF."""
    return f"article-{path}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One article as it is read; `depth` is 1 for a table and more for its parts."""

    path: Path
    depth: int
    ref: str
    title: str
    kind: Kind
    sentences: tuple[Sentence, ...]
    why: str
    note: str
    source: str

    @property
    def opens(self) -> str:
        """The chapter that starts with this article, or nothing."""
        return CHAPTERS.get(self.path, "")

    @property
    def anchor(self) -> str:
        """The id of the article on a page and in a PDF."""
        return anchor_of(self.path)

    @property
    def kind_word(self) -> str:
        """The kind as it is printed."""
        return KIND_WORDS[self.kind]


@dataclass(frozen=True, slots=True, kw_only=True)
class Differs:
    """An article that differs from the Laws: what it says, what they say, where they say it.

    Sentences that both share are left out.
    """

    told: Told
    here: tuple[Sentence, ...]
    laws: tuple[Sentence, ...]
    laws_ref: str


def told(book: Rulebook, standing: Mapping[Path, Compared]) -> tuple[Told, ...]:
    """Return every article in the order of the booklet; `standing` is `compared(book)`."""
    return tuple(
        _told(path, article, book, standing[path]) for path, article in book.articles()
    )


def told_one(book: Rulebook, path: Path) -> Told:
    """Return one article.

    Raises:
        KeyError: no article stands at that path.
    """
    return _told(path, book.article(path), book, compared(book)[path])


def differs(book: Rulebook, standing: Mapping[Path, Compared]) -> tuple[Differs, ...]:
    """Return every article that differs from the edition the rulebook stands on."""
    laws = _laws_in_our_unit(book)
    refs = {path: article.ref for path, article in laws.articles()}
    return tuple(
        _sides(_told(path, article, book, standing[path]), laws, standing[path], refs[path])
        for path, article in book.articles()
        if standing[path].standing == "differs"
    )


def settled(book: Rulebook, standing: Mapping[Path, Compared]) -> tuple[Told, ...]:
    """Return every article on which the Laws are silent and the house says something of its own."""
    return tuple(
        _told(path, article, book, standing[path])
        for path, article in book.articles()
        if standing[path].standing == "house" and standing[path].differences
    )


def differs_one(book: Rulebook, path: Path) -> Differs | None:
    """Return what differs in one article; None where it is as in the Laws or they are silent."""
    found = differs(book, compared(book))
    return next((one for one in found if one.told.path == path), None)


def _told(path: Path, article: Article, book: Rulebook, standing: Compared) -> Told:
    spoken = words(path)
    return Told(
        path=path,
        depth=path.count(".") + 1,
        ref=article.ref or path,
        title=spoken.title,
        kind="law" if standing.standing == "law" else article.kind,
        sentences=spoken.says(book),
        why=article.why,
        note=article.note,
        source=article.source,
    )


def _laws_in_our_unit(book: Rulebook) -> Rulebook:
    """Return the edition with its lengths in the unit of this field, so that both compare."""
    laws = edition(book.head.base)
    field = laws.field.model_copy(update={"unit": book.field.unit})
    return laws.model_copy(update={"field": field})


def _sides(here: Told, laws: Rulebook, standing: Compared, laws_ref: str) -> Differs:
    theirs = words(here.path).says(laws)
    ours = here.sentences
    only_ours, only_theirs = _without(ours, theirs), _without(theirs, ours)
    if not only_ours and not only_theirs:
        only_ours = tuple(_by_key(one.key, one.here) for one in standing.differences)
        only_theirs = tuple(_by_key(one.key, one.laws) for one in standing.differences)
    return Differs(
        told=here,
        here=only_ours or ours,
        laws=only_theirs or theirs,
        laws_ref=laws_ref,
    )


def _without(some: tuple[Sentence, ...], others: tuple[Sentence, ...]) -> tuple[Sentence, ...]:
    return tuple(sentence for sentence in some if sentence not in others)


def _by_key(key: str, value: object) -> Sentence:
    """Say a value that no sentence shows, such as one that is idle because of another."""
    return say("{key} is {value}.", key=key, value=value)
