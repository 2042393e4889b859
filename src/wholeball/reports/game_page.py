"""Makes the page of one game: where it stands, its timeline, and all that happened in it."""

from wholeball.reports.figures import score
from wholeball.reports.game_told import ToldGame
from wholeball.reports.game_words import game_words
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.reports.timeline import timeline
from wholeball.reports.timeline_svg import timeline_svg


def game_page(
    told: ToldGame, *, shell: Shell, here: str, under: str = "", day: str = ""
) -> str:
    """Return the page of a game; `day` says when and where it was played, if that is known."""
    state = told.state
    shown = state.result if state.result is not None else state.score
    label = "no result yet" if state.result is None else "counts"
    return rendered(
        "game.html",
        Page(
            here=here,
            under=under,
            title=f"{told.home} v {told.away}",
            about=f"game {told.game}",
            spot=Spot(number=score(*shown), label=label),
        ),
        shell,
        told=told,
        day=day,
        words=game_words(told),
        picture=timeline_svg(timeline(told)),
    )
