"""Tells of forfeits that follow from a team being out, and that nobody has written down."""

from collections.abc import Iterator

from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import TeamId
from wholeball.reports.person_words import article_name
from wholeball.rulebook.sentence import listed
from wholeball.season.result import Result
from wholeball.season.to_come import ToCome


def unwritten_forfeits(coming: ToCome) -> Iterator[Fault]:
    """Note each game that is given without a result: the standings do not count it yet."""
    article = article_name("forfeit.removal", coming.season.rulebook)
    for one in coming.given:
        teams = _at_fault(one)
        verb = "forfeits" if len(teams) == 1 else "forfeit"
        yield Fault(
            code="no_result",
            place=Place(file=TIMETABLE_FILE),
            says=(
                f"game {one.game}, {one.home} v {one.away}, has no result; {listed(teams)},"
                f" out of the league by {article}, {verb} it."
            ),
            value=str(one.game),
            cure="Who goes on is told by that. Enter the forfeit, so that the standings count it.",
            level="note",
        )


def _at_fault(one: Result) -> tuple[TeamId, ...]:
    both = {"home": (one.home,), "away": (one.away,), None: (one.home, one.away)}
    return both[one.by]
