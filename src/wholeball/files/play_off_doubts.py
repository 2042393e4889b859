"""Doubts play-offs of planning.toml that a league game's name, or no bracket, stands against."""

from collections.abc import Iterable, Iterator

from wholeball.files.bracket import Brackets
from wholeball.files.open_sides import open_side
from wholeball.files.planning_toml import PlanningToml
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import Fault
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.fixture import Fixture, Seeded
from wholeball.season.bracket_parts import brackets_of
from wholeball.season.season import Season


def play_off_doubts(
    said: PlanningToml, season: Season, drawn: Brackets, timetable: Iterable[Fixture]
) -> Iterator[Fault]:
    """Yield each play-off that no plan can place: its name is another's, or a seed is of no bracket."""
    taken = {one.game for one in timetable if one.stage != "play_off"}
    names = brackets_of(season)
    for index, one in enumerate(said.entry.play_offs):
        if one.game in taken:
            says = f"game {one.game} of the play-offs is called like a league game of {TIMETABLE_FILE}."
            cure = "Give it another name: a plan leaves it out."
            yield _doubt(said, ("play_offs", index, "game"), one.game, says, cure)
        for column in ("home", "away"):
            text = getattr(one, column)
            side = open_side(text)
            if isinstance(side, Seeded) and side.bracket not in {*names, *drawn}:
                says = f"game {one.game}: no division plays for the bracket of {side}."
                cure = _meant(side, list(names))
                yield _doubt(said, ("play_offs", index, column), text, says, cure)


def _meant(side: Seeded, names: list[str]) -> str:
    if names == [""]:
        return f"The season has one bracket: write seed {side.seed}."
    if side.bracket:
        return did_you_mean(side.bracket, filter(None, names))
    return f"Write the division, such as seed {side.seed} of {names[0]}."


def _doubt(said: PlanningToml, loc: Loc, value: str, says: str, cure: str) -> Fault:
    return Fault(
        code="duplicate" if loc[-1] == "game" else "unknown_bracket",
        place=said.source.place(loc),
        says=says,
        value=value,
        cure=cure,
        level="doubt",
    )
