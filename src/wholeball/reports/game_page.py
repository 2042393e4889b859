"""Makes the page of one game: where it stands, its timeline, and all that happened in it."""

from collections.abc import Callable

from wholeball.reports.article import anchor_of
from wholeball.reports.counts_as import counts
from wholeball.reports.figures import score
from wholeball.reports.game_told import ToldGame
from wholeball.reports.game_words import game_words
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.reports.timeline import timeline
from wholeball.reports.timeline_svg import timeline_svg


def game_page(
    told: ToldGame,
    *,
    shell: Shell,
    here: str,
    under: str = "",
    day: str = "",
    rulebook: str | Callable[[str], str] = "",
) -> str:
    """Return the page of a game; `day` says when and where it was played, if that is known.

    Articles link to the page `rulebook`, if there is one, or to that which it gives for a path.
    """

    def article(path: str) -> str:
        page = rulebook(path) if path and callable(rulebook) else rulebook
        return f"{page}#{anchor_of(path)}" if page and path else ""

    return rendered(
        "game.html",
        Page(
            here=here,
            under=under,
            title=f"{told.home} v {told.away}",
            about=f"game {told.game}",
            spot=spot_of(told),
        ),
        shell,
        told=told,
        day=day,
        words=game_words(told),
        picture=timeline_svg(timeline(told)) if told.has_entries else "",
        article=article,
    )


def spot_of(told: ToldGame) -> Spot:
    """Return what the game counts as; before it has a result, the score so far."""
    found = counts(told)
    if found.result is not None:
        by = None if told.settled is None else told.settled.ruling
        label = "counts" if by is None else f"counts, by ruling {by.number}"
        return Spot(number=score(*found.result), label=label)
    is_settled = told.settled is not None or told.state.ending is not None
    label = "counts for nothing" if is_settled else "no result yet"
    return Spot(number=score(*told.state.played), label=label)
