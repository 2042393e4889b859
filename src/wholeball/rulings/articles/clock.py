"""Declares how a penalty kick ends where time was up, and a kick from the mark: Laws 7, 10, 14."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_clock = Writer("clock")
_OVER: Final = "not retake unchanged abandon"
"""Restarts of a kick that was taken: it is neither taken again, nor still to come, nor never."""

CLOCK: Final[tuple[Article, ...]] = (
    _clock(
        "time_runs_on",
        "The game goes on.",
        "Law 7",
        then={"resumed": "as_ruled", "kick": "none"},
    ),
    _clock(
        "extended_time_is_over",
        "A period extended for a penalty kick ends once the kick is over.",
        "Laws 7.4 and 14.3",
        when={"at": "extended", "restart": _OVER},
        then={"resumed": "period_over", "kick": "none"},
        over="time_runs_on",
        path="game.period_end",
    ),
    *(
        _clock(
            f"kick_from_the_mark_{kick}",
            f"The kick from the mark {words}.",
            "Law 10.3",
            when={"at": "kicks", **when},
            then={"resumed": "shootout", "kick": kick},
            over="time_runs_on",
            path="kicks",
        )
        for kick, when, words in (
            ("scored", {"goal": "A"}, "counts"),
            ("retake", {"restart": "retake"}, "is taken again"),
            ("not_scored", {"goal": "no none", "restart": _OVER}, "does not count"),
        )
    ),
)
