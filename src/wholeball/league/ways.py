"""Says what people can be told to do to a season, and where the pages have it.

A text says what mends something; whoever keeps the season says how that is done there, as the
end of the sentence.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, Protocol, TypeAlias

ToDo: TypeAlias = Literal[
    "answer",
    "award",
    "begin",
    "bracket",
    "bring_back",
    "certify",
    "certify_one",
    "draw_lots",
    "enter",
    "explain",
    "id_key",
    "look",
    "plan",
    "reopen",
    "resume",
    "rule",
    "take_back",
]


class Way(Protocol):
    """Tells how people do something."""

    def __call__(self, to_do: ToDo, **told: str) -> str:
        """Return how it is done, as the end of a sentence; `told` names the game, or more."""


_PAGES: Final[Mapping[ToDo, str]] = {
    "answer": "on the page of game {game}, under Open questions.",
    "award": "on the page of game {game}, Rule on the game, for the {to} side by {ref}.",
    "begin": "import a season that has it, or start from a preset.",
    "bracket": "under Season, Bracket.",
    "bring_back": "on the page of game {game}, Bring back what was taken back.",
    "certify": "on the page of game {game}, Certify the result.",
    "certify_one": "on the page of each game, Certify the result.",
    "draw_lots": "under Season, Lots.",
    "enter": "on the page of game {game}, Mend the scorecard.",
    "explain": "under Calendar, Plan, repair, explain.",
    "id_key": "ask whoever runs the site; it is the one that the first list was read with.",
    "look": "on the page of game {game}.",
    "plan": "under Calendar, Plan, repair, explain.",
    "reopen": "on the page of game {game}, Reopen the result.",
    "resume": "on the page of game {game}, Mend the scorecard: The day the game went on.",
    "rule": "on the page of game {game}, Rule on the game.",
    "take_back": "on the page of game {game}, Take back the last entering.",
}


def on_pages(to_do: ToDo, **told: str) -> str:
    """Return where the pages of the site have it."""
    return _PAGES[to_do].format_map(told)


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """What the end of a text says to do, and the game that it is done to, if any."""

    to_do: ToDo
    game: str = ""


def named_in(text: str) -> Named | None:
    """Return what the end of a text of the pages says to do; nothing where it names no page.

    Where two things are done at one place, it is the first of them.
    """
    for to_do, pattern in _PATTERNS.items():
        found = pattern.search(text)
        if found is not None:
            return Named(to_do=to_do, game=found.groupdict().get("game", ""))
    return None


def _pattern(words: str) -> re.Pattern[str]:
    """Return what finds words at the end of a text, with whatever they are told."""
    fixed = re.escape(words)
    for told in ("game", "to", "ref"):
        fixed = fixed.replace(rf"\{{{told}\}}", f"(?P<{told}>.+)")
    return re.compile(rf"{fixed}\Z")


_PATTERNS: Final = {
    to_do: _pattern(words)
    for to_do, words in sorted(_PAGES.items(), key=lambda one: -len(one[1]))
}
"""The longest words first, for the shortest end of a sentence may be a part of longer ones."""
