"""Says a scene in words: its title, and all that it shows, for those who do not see it."""

from collections.abc import Iterator
from typing import Final

from wholeball.kernel.units import Unit, in_unit
from wholeball.pitch.areas import Side
from wholeball.reports import ruling_phrases as phrases
from wholeball.reports.ruling_words import summary
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.rulings.situation_words import situation_in_words
from wholeball.rulings.spaces import GAME
from wholeball.training.scene import Figure, Scene

SHAPES: Final = {True: "for the discs", False: "for the squares"}
_TAKERS: Final = {"toucher": "A", "other": "B"}
_CARDS: Final = {
    "none": "",
    "yellow": ", shown yellow",
    "red": ", shown red",
    "yellow_red": ", shown yellow and red",
}


def attacks(team: str, scene: Scene) -> bool:
    """Tell whether a team attacks the goal that is drawn above."""
    return (team == "A") == (scene.top is Side.OPPONENTS)


def who_is_who(scene: Scene, situation: Situation) -> str:
    """Return which shape each side has, in the words that the ruling uses for it."""
    acting = phrases.ACTING.get(situation.facts["seen"], phrases.OFFENDING)
    shapes = ("discs", "squares") if attacks("A", scene) else ("squares", "discs")
    said = f"{acting}: {shapes[0]}. {phrases.OTHER}: {shapes[1]}."
    return ". ".join(part[0].upper() + part[1:] for part in said.split(". "))


def scene_title(situation: Situation, ruling: Ruling) -> str:
    """Return the ruling in one line."""
    return summary(ruling.answers, situation.facts)


def scene_desc(scene: Scene, situation: Situation, unit: Unit) -> str:
    """Return the situation in the words of its facts, and what is drawn."""
    told = situation_in_words(situation.facts, GAME)
    parts = (told, who_is_who(scene, situation), *_drawn(scene, unit))
    return " ".join(parts)


def place_words(scene: Scene, situation: Situation, ruling: Ruling) -> tuple[str, ...]:
    """Return what stands beside the place of the restart, in one line or two."""
    restart, taker = ruling["restart"], ruling["taker"]
    side = _TAKERS.get(taker, taker)
    words = phrases.RESTARTS.get(restart, "restart as before")
    if restart == "retake":
        words = f"{phrases.RESTARTS.get(situation.facts.get('kind', ''), 'restart')} again"
    if taker == "both":
        return (words, "for both sides")
    return (words, SHAPES[attacks(side, scene)]) if side in ("A", "B") else (words,)


def _drawn(scene: Scene, unit: Unit) -> Iterator[str]:
    yield "Discs attack the goal at the top, squares defend it; triangles are the officials."
    labelled = [_figure(figure, scene) for figure in scene.figures if figure.label]
    if labelled:
        yield f"Labelled: {', '.join(labelled)}."
    for number, arrow in enumerate(scene.arrows, start=1):
        what = "The ball is played" if arrow.of == "ball" else "A player runs"
        yield f"{number}. {what} along arrow {number}."
    if scene.whistle is not None:
        who = "lead" if scene.whistle.role == "lead" else "trail"
        yield f"{len(scene.arrows) + 1}. The {who} official whistles."
    if scene.ring is not None:
        yield f"A dashed ring shows {in_unit(scene.ring.radius, unit)} from the ball."
    if scene.offside is not None:
        yield "A dashed line shows the second-last opponent."
    if scene.close_up is not None:
        over = "all of it is over" if scene.close_up.is_over else "not all of it is over"
        yield f"A close-up shows the ball and the {scene.close_up.line}: {over} the line."


def _figure(figure: Figure, scene: Scene) -> str:
    team = ""
    if figure.team is not None:
        team = " (attacks)" if attacks(figure.team, scene) else " (defends)"
    return f"{figure.label}{team}{_CARDS[figure.card]}"
