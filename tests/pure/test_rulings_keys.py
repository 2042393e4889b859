"""Which values of a rulebook no article of the rulings reads, each with the reason.

No outside source: this is about the project's own articles. A new value must be read by an
article or stand here, and what an article reads may not stand here.
"""

from collections import Counter
from collections.abc import Iterator
from fnmatch import fnmatchcase
from typing import Final

import pytest

from cases.rulebooks import EDITIONS, PRESETS, rulebook
from wholeball.rulebook.book import values
from wholeball.rulings.outcome import OUTCOMES, SWAPS
from wholeball.rulings.spaces import PROVED

UNREAD: Final = {
    "the field, the ball and what people wear are checked before the game": """
        field.areas.* field.centre_circle field.corner_arc field.flags field.goal.* field.length
        field.limits.* field.lines_most field.unit field.width ball.* equipment.* captain.armband
    """,
    "whether somebody was too near is asked, never how far away": """
        corner.distance free_kick.distance free_kick.wall.distance kick_off.distance
        penalty.distance throw_in.distance
    """,
    "an official asks whether it was so; how it is done is in the booklet": """
        free_kick.distance_given goal_kick.taken handball.arm_ends kick_off.on_signal
        kick_off.only_kicker_over_halfway penalty.ball penalty.goalkeeper.on_line
        goalkeeper.hold.seconds goalkeeper.hold.shown_seconds
    """,
    "it changes what a throw-in is called, and nothing that is ruled": """
        throw_in.method
    """,
    "a guideline: approaching an official against it is dissent": """
        captain.only_captain_approaches
    """,
    "the clock and the score are the game's: it counts, and ends by them": """
        game.breaks.* game.clock game.counts game.interval_minutes game.minutes
        game.period_end.chance game.periods game.stoppages.* mercy.* overtime.* ties.*
        kicks.each kicks.ends kicks.sudden_death kicks.takers.order kicks.takers.twice
        ends.change_ends ends.decided_by ends.guesser
    """,
    "who is on the field, and who comes back when, is the game's: it keeps the persons": """
        cards.cautioned.* cards.sent_off.after_minutes cards.sent_off.leaves_within_minutes
        sides.* substitution.again substitution.concussion_extra substitution.enters_at
        substitution.leaving.by substitution.leaving.seconds substitution.most
        substitution.recorded substitution.signal substitution.when
    """,
    "rosters, check-in and eligibility are settled from lists, before and after the game": """
        roster.* check_in.* eligibility.* crew.*
    """,
    "the season's: nothing on the field changes by it": """
        discipline.* forfeit.* play_offs.* protests.* ratings.* resumption.* standings.*
    """,
}


def keys(name: str) -> set[str]:
    return {
        f"{path}.{key}"
        for path, article in rulebook(name).articles()
        for key in values(article)
    }


def read_keys() -> Iterator[str]:
    for space in PROVED:
        for article in space.articles:
            yield from article.given
            if article.outcome is not None and article.outcome not in OUTCOMES:
                yield article.outcome
    for given, _, _ in SWAPS:
        yield from given


def listed(key: str) -> list[str]:
    """Return the patterns that a key stands under."""
    return [
        pattern
        for patterns in UNREAD.values()
        for pattern in patterns.split()
        if fnmatchcase(key, pattern)
    ]


@pytest.mark.parametrize("name", [*PRESETS, *EDITIONS])
def test_every_value_is_read_by_an_article_or_stands_here_once(name: str) -> None:
    read = set(read_keys())
    wrong = {key: listed(key) for key in keys(name) if len(listed(key)) != (key not in read)}
    assert wrong == {}


def test_every_reason_is_needed() -> None:
    used = Counter(pattern for key in keys("laws-2025-26") for pattern in listed(key))
    written = Counter(pattern for patterns in UNREAD.values() for pattern in patterns.split())
    assert set(written) - set(used) == set()
    assert max(written.values()) == 1


def test_articles_read_no_value_that_there_is_not() -> None:
    assert set(read_keys()) - keys("laws-2025-26") == set()
