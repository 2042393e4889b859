"""Shows what the articles of a rulebook mean, in words, and what differs from the Laws."""

from dataclasses import dataclass
from textwrap import fill

from wholeball.files.rulebook_file import read_rulebook
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.nearest import did_you_mean
from wholeball.reports.plain import INDENT, WIDTH, article_text
from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.differences import Compared, compared
from wholeball.rulebook.reference import reference
from wholeball.rulebook.words.lookup import words


@dataclass(frozen=True, slots=True, kw_only=True)
class ArticleShown:
    """One article in words, and what differs in it from the Laws."""

    path: Path
    ref: str
    kind: str
    title: str
    sentences: tuple[str, ...]
    compared: Compared
    text: str

    def as_values(self) -> dict[str, object]:
        """Return it as plain values, for JSON."""
        return {
            "article": self.path,
            "ref": self.ref,
            "kind": self.kind,
            "title": self.title,
            "says": list(self.sentences),
            "standing": self.compared.standing,
            "differs_from_laws": [
                {"key": one.key, "here": str(one.here), "laws": str(one.laws)}
                for one in self.compared.differences
            ],
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class WordsShown:
    """One article of the house that is in words only; `path` is also.0, also.1 and so on."""

    path: Path
    ref: str
    title: str
    says: str

    @property
    def text(self) -> str:
        """Return it for the terminal: heading, then its words."""
        body = fill(self.says, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT)
        return f"{self.ref}  {self.title} (in words)\n{body}"

    def as_values(self) -> dict[str, object]:
        """Return it as plain values, for JSON."""
        return {
            "article": self.path,
            "ref": self.ref,
            "kind": "words",
            "title": self.title,
            "says": [self.says],
            "standing": "house",
            "differs_from_laws": [],
        }


def articles_shown(name: str, article: str | None) -> tuple[ArticleShown | WordsShown, ...]:
    """Return every article of a rulebook in words, or the one asked for with its parts.

    Raises:
        WholeballError: no article has that path or reference.
        InputFaults: everything that is wrong with the rulebook.
    """
    book = read_rulebook(name).rulebook
    standing = compared(book)
    also = _also(book)
    return tuple(
        also[path] if path in also else _shown(book, path, standing[path])
        for path in _asked(book, article)
    )


def _also(book: Rulebook) -> dict[Path, WordsShown]:
    return {
        f"also.{index}": WordsShown(
            path=f"also.{index}", ref=one.ref, title=one.title, says=one.text
        )
        for index, one in enumerate(book.also)
    }


def _asked(book: Rulebook, article: str | None) -> tuple[Path, ...]:
    paths = {path: one.ref for path, one in book.articles()}
    paths |= {path: one.ref for path, one in _also(book).items()}
    if article is None:
        return tuple(paths)
    found = tuple(
        path
        for path, ref in paths.items()
        if article in (path, ref) or path.startswith(f"{article}.")
    )
    if not found:
        raise WholeballError(
            f"There is no article {article!r}.",
            fix=_meant(article, paths),
            code="unknown_value",
        )
    return found


def _meant(asked: str, paths: dict[Path, str]) -> str:
    """Return the cure: the article that holds the key asked for, or the nearest name."""
    table, _, key = asked.rpartition(".")
    keys = {one.key for entry in reference() if entry.table == table for one in entry.keys}
    if table in paths and key in keys:
        return f"{key} is a key of the article {table}; show {table}."
    return did_you_mean(asked, [*paths, *paths.values()])


def _shown(book: Rulebook, path: Path, standing: Compared) -> ArticleShown:
    article = book.article(path)
    spoken = words(path)
    return ArticleShown(
        path=path,
        ref=article.ref,
        kind=article.kind,
        title=spoken.title,
        sentences=tuple(str(sentence) for sentence in spoken.says(book)),
        compared=standing,
        text=article_text(book, path),
    )
