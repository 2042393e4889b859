"""Makes a season with a rulebook alone, for those who study its rules, and reads their pages."""

import re
from html import unescape
from importlib.resources import files
from typing import Final

from django.test import Client

from cases.stored import a_season, written_by
from wholeball.store.models import Season

HERE: Final = "/study/harrow-fen/autumn/happened/"
DIFFERENT: Final = "/study/harrow-fen/autumn/different/"
_HIDDEN: Final = re.compile(r'<input type="hidden" name="(\w+)" value="([^"]*)">')
_ANSWER: Final = re.compile(
    r'<button class="button" name="(\w+)" value="(\w+)">([^<]*)</button>'
)
_VERDICT: Final = re.compile(r'<h2 id="verdict"[^>]*>([^<]*)</h2>')


def preset(name: str) -> bytes:
    """Return the text of a rulebook that the project ships."""
    return files("wholeball.rulebook.presets").joinpath(f"{name}.toml").read_bytes()


def a_study(rulebook: bytes, name: str = "Autumn") -> Season:
    """Return a season that is played by a rulebook."""
    season = a_season(name)
    written_by(season).write({"rulebook.toml": rulebook})
    return season


def answers_on(page: str) -> dict[str, tuple[str, str]]:
    """Return the fact and the words of each answer that a page offers, by its value."""
    return {value: (fact, unescape(says)) for fact, value, says in _ANSWER.findall(page)}


def hidden_on(page: str) -> dict[str, str]:
    """Return what a page's form sends along, in its order."""
    main = page[page.index("<main") :]
    return {name: unescape(value) for name, value in _HIDDEN.findall(main)}


def verdict_on(page: str) -> str:
    """Return the decision that a page shows, or nothing."""
    found = _VERDICT.search(page)
    return unescape(found[1]) if found else ""


def walked(client: Client, facts: dict[str, str], about: str) -> tuple[str, dict[str, str]]:
    """Answer a page's questions by what is so until it rules; return the page, what was sent."""
    sent = {"about": about}
    for _ in facts:
        page = client.get(HERE, sent).content.decode()
        if verdict_on(page):
            return page, sent
        offered = answers_on(page)
        (fact,) = {fact for fact, _ in offered.values()}
        sent = {**hidden_on(page), fact: facts[fact]}
    return client.get(HERE, sent).content.decode(), sent
