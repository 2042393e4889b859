"""Says under which address each page of a public season stands."""

from dataclasses import dataclass
from datetime import date
from urllib.parse import quote

from wholeball.kernel.identity import GameId


@dataclass(frozen=True, slots=True)
class Addresses:
    """The addresses of a season's pages below its root, such as "/lantern-hill/autumn/"."""

    root: str

    @property
    def front(self) -> str:
        """The front page."""
        return self.root

    @property
    def tables(self) -> str:
        """The list of all standings."""
        return f"{self.root}standings/"

    def table(self, number: int, round_: int | None = None) -> str:
        """Return the standings of a pool by its number from 1: the newest, or those of a round."""
        return f"{self.tables}{number}/{'' if round_ is None else f'round-{round_}/'}"

    def why(self, number: int, round_: int, place: int) -> str:
        """Return the reason for a place of a pool after a round."""
        return f"{self.table(number, round_)}why/{place}/"

    @property
    def calendar(self) -> str:
        """The timetable: the week that is played next, and the way to everything else."""
        return f"{self.root}calendar/"

    def week(self, number: int) -> str:
        """Return one week of the timetable."""
        return f"{self.calendar}week-{number}/"

    def night(self, night: date) -> str:
        """Return one night of the timetable."""
        return f"{self.calendar}{night.isoformat()}/"

    def team(self, team: str) -> str:
        """Return the page of a team."""
        return f"{self.root}teams/{_part(team)}/"

    def field(self, field: str) -> str:
        """Return the page of a field."""
        return f"{self.root}fields/{_part(field)}/"

    def bracket(self, number: int) -> str:
        """Return a bracket by its number from 1."""
        return f"{self.root}bracket/{number}/"

    @property
    def draws(self) -> str:
        """The draws of lots."""
        return f"{self.root}draws/"

    def draw_file(self, draw: str, file: str) -> str:
        """Return what checks a draw: what was published of it, or the program that checks that."""
        return f"{self.draws}{draw}/{file}"

    def results(self, round_: int | None = None) -> str:
        """Return the newest results, or those of a round."""
        return f"{self.root}results/{'' if round_ is None else f'round-{round_}/'}"

    def game(self, game: GameId) -> str:
        """Return the page of a game."""
        return f"{self.root}games/{_part(game)}/"

    @property
    def rules(self) -> str:
        """The house rules, what is different first."""
        return f"{self.root}rules/"

    def chapter(self, number: int) -> str:
        """Return a chapter of the house rules by its number from 1."""
        return f"{self.rules}{number}/"

    @property
    def ground(self) -> str:
        """The field of play to scale."""
        return f"{self.root}rules/field/"


def _part(name: str) -> str:
    """Return a name as a part of an address; browsers would take "." and ".." out."""
    return quote(name, safe="") if name.strip(".") else f"-{name}-"


def named_in(part: str) -> str:
    """Return the name that a part of an address stands for."""
    inner = part[1:-1]
    return inner if part == f"-{inner}-" and inner and not inner.strip(".") else part
