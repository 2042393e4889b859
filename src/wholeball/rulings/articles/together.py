"""Declares how two offences at once are chosen between: Laws 5.3, 8.2 and 12.3."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_together = Writer("together")
_WHICH: Final = (("one", "first"), ("other", "second"))

CHOICES: Final[tuple[Article, ...]] = (
    *(
        _together(
            f"costs_more_{which}",
            f"Play restarts for the graver offence, the {words}: it costs more.",
            "Law 5.3",
            when={"graver_shown": which},
            then={"restart_for": which},
        )
        for which, words in _WHICH
    ),
    *(
        _together(
            f"graver_kick_{which}",
            f"Play restarts for the graver offence, the {words}: it brings the graver kick.",
            "Law 5.3",
            when={"graver_restart": which},
            then={"restart_for": which},
        )
        for which, words in _WHICH
    ),
    _together(
        "equal_of_one_side",
        "Of two equal offences of one side the first one counts.",
        "Law 5.3",
        when={"sides": "same"},
        then={"restart_for": "one"},
    ),
    _together(
        "equal_of_two_sides",
        "Equal offences of both sides at once bring a dropped ball.",
        "Law 8.2",
        when={"sides": "two"},
        then={"restart_for": "dropped_ball"},
        path="dropped_ball",
    ),
    _together(
        "each_for_itself",
        "What each of them costs is shown for itself.",
        "Law 12.3",
        then={"shown_for": "each"},
    ),
    _together(
        "two_yellows_at_once",
        "Two yellows at once to one person are the second as well.",
        "Law 12.3",
        when={"yellows": "both"},
        then={"shown_for": "second_caution"},
        over="each_for_itself",
        path="cards",
        given={"cards.cautions_for_red": "2"},
    ),
)
