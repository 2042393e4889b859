"""Says what a coordinator calls the kinds of rules, and the parameters that a form asks for."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from wholeball.kernel.identity import TeamId
from wholeball.planning.kinds import KINDS
from wholeball.planning.rule import Param, Rule

_SEVERAL: Final = (TeamId("Ash"), TeamId("Birch"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A kind that can be added: its title, what its parameters are called, and an example.

    Those that are `often` asked for are offered first.
    """

    kind: str
    title: str
    example: Mapping[str, Param] = field(default_factory=dict)
    labels: Mapping[str, str] = field(default_factory=dict)
    hints: Mapping[str, str] = field(default_factory=dict)
    often: bool = False

    @property
    def says(self) -> str:
        """The example as the rule would read."""
        kind = KINDS[self.kind]
        strength = kind.strengths[0]
        rule = Rule(
            rule=self.title,
            kind=self.kind,
            strength=strength,
            cost=0 if strength == "must" else 1,
            teams=_SEVERAL if kind.teams == "several" else (),
            params=self.example,
        )
        return kind.sentence(rule)


_NIGHTS: Final = "Days with commas, such as: 2027-01-18, 2027-02-15."
_EVERY: Final = f"{_NIGHTS} Empty: every night."
_GAMES: Final = "Their names with commas, as the timetable has them."
_OFFERED: Final = (
    Offer(
        kind="games_a_night",
        often=True,
        title="Games a night",
        example={"most": 1},
        labels={"most": "Most games a night"},
    ),
    Offer(
        kind="games_a_week",
        often=True,
        title="Games a week",
        example={"most": 2},
        labels={"most": "Most games a week"},
    ),
    Offer(
        kind="games_in_days",
        title="Games within some days",
        example={"most": 2, "days": 5},
        labels={
            "most": "Most games",
            "days": "Days on end within which they are counted",
        },
    ),
    Offer(
        kind="rest_days",
        often=True,
        title="Rest days",
        example={"days": 2},
        labels={"days": "Free days between two nights with a game"},
    ),
    Offer(
        kind="double_header",
        title="Two games on one night",
        example={},
        labels={"starts_between": "Starts that may lie between the two"},
        hints={"starts_between": "Empty: none, so that they follow one another."},
    ),
    Offer(
        kind="even_starts",
        often=True,
        title="Late or early starts shared out",
        example={"which": "late"},
        labels={"which": "Starts"},
    ),
    Offer(kind="even_fields", often=True, title="Fields shared out"),
    Offer(kind="idle_week", often=True, title="No idle week"),
    Offer(
        kind="even_byes",
        title="Idle weeks shared out",
        example={"most": 1},
        labels={"most": "Idle weeks more than any other team has, at most"},
    ),
    Offer(
        kind="absent",
        often=True,
        title="Nights and times without games",
        example={"nights": ("2027-01-18",)},
        labels={
            "weekdays": "Days of every week",
            "nights": "Days of the calendar",
            "from": "From this time on",
            "until": "Until this time",
        },
        hints={"nights": f"{_NIGHTS} Nothing ticked above and nothing here: every night."},
    ),
    Offer(
        kind="games_on",
        title="Games on some nights",
        example={"most": 1, "nights": ("2027-01-18", "2027-02-15")},
        labels={
            "most": "Most games",
            "nights": "Nights, all of them counted together",
            "side": "Listed as",
        },
        hints={"nights": _NIGHTS},
    ),
    Offer(
        kind="not_at",
        title="Games that do not begin then",
        example={"names": ("A1", "A2"), "from": "20:00"},
        labels={
            "names": "Games",
            "nights": "Nights",
            "from": "From this time on",
            "until": "Until this time",
        },
        hints={"names": _GAMES, "nights": _EVERY},
    ),
    Offer(
        kind="fixed",
        title="A game with a place of its own",
        example={"name": "A1", "night": "2027-01-18", "at": "18:00"},
        labels={
            "name": "Game",
            "night": "Night",
            "at": "At",
            "field": "Field",
        },
        hints={"field": "Empty: any field."},
    ),
    Offer(
        kind="next_to_each_other",
        often=True,
        title="Teams that play one after the other",
    ),
    Offer(
        kind="never_at_once",
        title="Teams that never play at once",
        example={},
        labels={"minutes": "Minutes from one start to the other, at least"},
        hints={"minutes": "Empty: they only never start at once."},
    ),
    Offer(
        kind="gap_between_repeats",
        title="Days until two teams meet again",
        example={"days": 14},
        labels={"days": "Days until they meet again, at least"},
    ),
    Offer(
        kind="listed_first",
        title="Listed first as often as second",
        example={"most": 1},
        labels={"most": "Times that the two may be apart"},
    ),
    Offer(kind="round_by_round", often=True, title="Round by round"),
    Offer(kind="no_gap", often=True, title="No gap in a night"),
    Offer(kind="open_night", title="Few nights"),
    Offer(kind="open_start", title="Few starts"),
)
OFFERS: Final[Mapping[str, Offer]] = MappingProxyType({one.kind: one for one in _OFFERED})
"""The kinds that can be added on a page, those most asked for first.

A length, a block and what comes after what are no choice: the rulebook and the blocks make them.
"""
WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "late": "the last of each night",
        "early": "the first of each night",
        "any": "either side",
        "first": "the side listed first",
        "second": "the side listed second",
    }
)
"""What a form calls the words of which a parameter has one."""
