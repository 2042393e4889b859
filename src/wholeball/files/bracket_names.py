"""Doubts brackets that no division plays for, where divisions play off apart."""

from collections.abc import Iterable, Iterator

from wholeball.files.bracket import FILE as BRACKET_FILE
from wholeball.files.bracket import Brackets
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.fixture import OpenFixture, Seeded
from wholeball.season.bracket_parts import brackets_of
from wholeball.season.season import Season


def name_doubts(
    season: Season, drawn: Brackets, fixtures: Iterable[OpenFixture]
) -> Iterator[Fault]:
    """Yield each bracket, drawn or only named by a seed, that is not named like a division."""
    names = brackets_of(season)
    if len(names) < 2:
        return
    cure = f'With one bracket for all divisions, write brackets = "one" into {SEASON_FILE}.'
    for name in drawn:
        if name not in names:
            what = f"bracket {name}" if name else "a bracket without a name"
            says = f"each division plays for a bracket named like itself, and {what} is drawn."
            yield _doubt(BRACKET_FILE, name, says, cure)
    for fixture in fixtures:
        for side in (fixture.home, fixture.away):
            if isinstance(side, Seeded) and side.bracket not in {*names, *drawn}:
                says = f"game {fixture.game}: no division plays for the bracket of {side}."
                meant = (
                    did_you_mean(side.bracket, names)
                    if side.bracket
                    else f"Write the division, such as seed {side.seed} of {next(iter(names))}."
                )
                yield _doubt(TIMETABLE_FILE, fixture.game, says, f"{meant} {cure}")


def _doubt(file: str, value: str, says: str, cure: str) -> Fault:
    return Fault(
        code="unknown_bracket",
        place=Place(file=file),
        says=says,
        value=value,
        cure=cure,
        level="doubt",
    )
