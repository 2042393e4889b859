"""Sets the scenes of the project's situations under a rulebook, for tests."""

from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files

from wholeball.kernel.units import Tenths
from wholeball.pitch.plan import FieldPlan
from wholeball.reports.field_of_play import field_plan
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition
from wholeball.rulebook.load import load
from wholeball.rulings.bind import Rules, bind
from wholeball.rulings.paths import paths
from wholeball.rulings.ruling import Ruling, Situation
from wholeball.rulings.spaces import GAME
from wholeball.training.answered import Answered, answered
from wholeball.training.compose import scene_of
from wholeball.training.scene import Scene
from wholeball.training.thirty import THIRTY

BALL = Tenths(1_114)
"""Radius of a ball of 70 cm, rounded down (IFAB Laws of the Game, Law 2.1)."""
PRESETS = ("eleven", "nine", "eight", "seven", "five_indoor", "mixed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Set:
    """A situation, its ruling and its scene."""

    name: str
    situation: Situation
    ruling: Ruling
    scene: Scene


def book_of(name: str) -> Rulebook:
    """Return a preset, or an edition by its key."""
    if name.startswith("laws-"):
        return edition(name)
    data = files("wholeball.rulebook.presets").joinpath(f"{name}.toml").read_bytes()
    return load(data, file=f"{name}.toml").rulebook


def the_thirty(book: Rulebook) -> list[Set]:
    """Return the project's situations, ruled and staged."""
    rules, plan = bind(GAME, book), field_plan(book)
    return [_set(told.name, answered(told.seen, rules), plan) for told in THIRTY]


def _set(name: str, found: object, plan: FieldPlan) -> Set:
    assert isinstance(found, Answered), (name, found)
    scene = scene_of(found.situation, found.ruling, plan, ball=BALL)
    return Set(name=name, situation=found.situation, ruling=found.ruling, scene=scene)


def one_of_each(book: Rulebook) -> Iterator[Set]:
    """Yield a scene for every way in which what was seen, restart, taker and spot go together."""
    plan, rules = field_plan(book), bind(GAME, book)
    met: set[tuple[str, ...]] = set()
    for situation, ruling in _every_path(rules):
        facts = situation.facts
        kind = (
            *(facts.get(name, "") for name in ("seen", "kind", "zone", "flaw", "goal_area")),
            *(ruling[part] for part in ("restart", "taker", "spot", "shown")),
        )
        if kind not in met:
            met.add(kind)
            scene = scene_of(situation, ruling, plan, ball=BALL)
            yield Set(name=" ".join(kind), situation=situation, ruling=ruling, scene=scene)


def _every_path(rules: Rules) -> Iterator[tuple[Situation, Ruling]]:
    facts = {fact.name for fact in GAME.facts}
    for path in paths(rules):
        seen = {name: value for name, value in path.known.items() if name in facts}
        answers = {name: value for name, value in path.known.items() if name not in facts}
        yield Situation(facts=seen), Ruling(answers=answers, articles=path.articles)
