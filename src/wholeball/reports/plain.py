"""Writes one article as plain text, for the terminal and for letters."""

from collections.abc import Iterator
from textwrap import fill

from wholeball.reports.article import differs_one, told_one
from wholeball.rulebook.book import Path, Rulebook
from wholeball.rulebook.sentence import Sentence

WIDTH = 88
INDENT = "  "


def article_text(book: Rulebook, path: Path) -> str:
    """Return an article in words: heading, sentences, what the Laws say, reason and source.

    Raises:
        KeyError: no article stands at that path.
    """
    return "\n".join(_lines(book, path))


def _lines(book: Rulebook, path: Path) -> Iterator[str]:
    one = told_one(book, path)
    yield f"{one.ref}  {one.title} ({one.kind_word})"
    yield _wrapped(_joined(one.sentences))
    different = differs_one(book, path)
    if different is not None:
        yield _wrapped(f"The Laws say ({different.laws_ref}): {_joined(different.laws)}")
    for lead, text in (("Why", one.why), ("Note", one.note), ("Source", one.source)):
        if text:
            yield _wrapped(f"{lead}: {text}")


def _joined(sentences: tuple[Sentence, ...]) -> str:
    return " ".join(str(sentence) for sentence in sentences)


def _wrapped(text: str) -> str:
    return fill(text, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT)
