"""Makes the page that holds our tables against published ones, side by side."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from wholeball.kernel.identity import TeamId
from wholeball.reports.reasons import AS_LISTED, Why, absence
from wholeball.reports.shell import Page, Shell, Spot, rendered
from wholeball.reports.standings_page import lines
from wholeball.season.published import PublishedLine
from wholeball.season.standings import Row, Standings

FIGURES: Final = ("Played", "Won", "Drawn", "Lost", "For", "Against", "Points")


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """One published table and the one computed from its games; `source` is the publisher."""

    title: str
    source: str
    computed: Standings
    published: tuple[PublishedLine, ...]

    @property
    def agrees(self) -> bool:
        """Whether every published place and figure is the computed one, and no team is missing."""
        return all(pair.agrees for pair in _pairs(self))


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One figure of both tables."""

    name: str
    here: int
    published: int | None

    @property
    def agrees(self) -> bool:
        """Whether they are equal; a figure that is not published cannot differ."""
        return self.published is None or self.here == self.published


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One team's line in both tables; `published` is None where it was not published."""

    team: TeamId
    place: int
    published: int | None
    cells: tuple[Cell, ...]
    why: Why | None

    @property
    def agrees(self) -> bool:
        """Whether place and figures are equal."""
        return self.place == self.published and all(cell.agrees for cell in self.cells)

    @property
    def sentence_here(self) -> str:
        """The figures computed here, for a page too narrow for columns."""
        return ", ".join(f"{cell.name.lower()} {cell.here}" for cell in self.cells)

    @property
    def sentence_published(self) -> str:
        """The published place and figures."""
        place = "not listed" if self.published is None else f"place {self.published}"
        given = (cell for cell in self.cells if cell.published is not None)
        return ", ".join((place, *(f"{cell.name.lower()} {cell.published}" for cell in given)))


def proof_page(proofs: tuple[Proof, ...], *, shell: Shell, here: str) -> str:
    """Return the page of all proofs; `here` is the name of its file."""
    agreeing = sum(proof.agrees for proof in proofs)
    page = Page(
        here=here,
        title="Held against published tables",
        spot=Spot(
            number=str(agreeing),
            label="of 1 table agrees" if len(proofs) == 1 else f"of {len(proofs)} tables agree",
        ),
    )
    shown = [
        (proof, list(_pairs(proof)), [absence(one) for one in proof.computed.absences])
        for proof in proofs
    ]
    return rendered("proof.html", page, shell, shown=shown, names=FIGURES)


def _pairs(proof: Proof) -> Iterator[Pair]:
    published = {line.team: line for line in proof.published}
    printed = lines(proof.computed, AS_LISTED)
    for row, line in zip(proof.computed.rows, printed, strict=True):
        other = published.get(row.team)
        yield Pair(
            team=row.team,
            place=row.place,
            published=None if other is None else other.place,
            cells=_cells(row, other),
            why=line.why,
        )


def _cells(row: Row, other: PublishedLine | None) -> tuple[Cell, ...]:
    here = (
        row.played,
        row.won,
        row.drawn,
        row.lost,
        row.goals_for,
        row.goals_against,
        row.points,
    )
    theirs = (None,) * len(FIGURES) if other is None else other.figures
    return tuple(
        Cell(name=name, here=ours, published=given)
        for name, ours, given in zip(FIGURES, here, theirs, strict=True)
    )
