"""Makes the page of the results of one round, with what does not stand as it was played."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from wholeball.reports.not_as_played import Change
from wholeball.reports.shell import Page, Shell, Spot, rendered


@dataclass(frozen=True, slots=True, kw_only=True)
class ResultTold:
    """One result as it counts; `when` says what is known of its night, start and field.

    One that is not certified yet may still change.
    """

    home: str
    away: str
    score: str
    when: str
    href: str = ""
    is_certified: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundTold:
    """The results of one round, and the pages of all rounds that have one.

    `to_come` counts the games of the timetable, of any round, whose result is not known or not
    certified.
    """

    league: str
    number: int
    results: Sequence[ResultTold]
    changes: Sequence[Change]
    hrefs: Mapping[int, str]
    to_come: int


def results_page(told: RoundTold, *, shell: Shell, here: str, under: str) -> str:
    """Return the page of one round; number 0 stands for a season without a result."""
    return rendered(
        "results.html",
        Page(
            here=here,
            under=under,
            title="Results",
            about=f"round {told.number}" if told.number else "",
            spot=Spot.counting(len(told.results), "result"),
        ),
        shell,
        told=told,
    )
