"""Says what is not taken back among the changes of a season, why, and what is done instead."""

from collections.abc import Iterable, Iterator
from typing import Final

from wholeball.files.any_cell import meant
from wholeball.files.bracket import FILE as BRACKET
from wholeball.files.closures import FILE as CLOSURES
from wholeball.files.closures_write import CALLED_OFF
from wholeball.files.editions import FOLDER as EDITIONS
from wholeball.files.folder import SeasonFolder
from wholeball.files.incident_reports import FOLDER as REPORTS
from wholeball.files.notices import FILE as NOTICES
from wholeball.files.officials import FILE as OFFICIALS
from wholeball.files.student_ids import CHECK_FILE
from wholeball.files.teams import FILE as TEAMS
from wholeball.kernel.faults import WholeballError
from wholeball.league.fixture import Fixture, OpenFixture
from wholeball.planning.days import day
from wholeball.rulebook.sentence import counted
from wholeball.store.models import Change
from wholeball.store.models.tables import fields_of
from wholeball.store.queries.history import written_with
from wholeball.usecases.drawn_games import drawn_games
from wholeball.usecases.season_draws import FOLDER as DRAWS

_REPORT: Final = "A report stays as it was written."
_CHECK: Final = "The check stays as long as there are codes that its key made."


def why_kept(change: Change) -> str:
    """Say why a change stays, as far as what it wrote tells; empty where it may go back.

    What emptied such a file may go back: it brings back what was there.
    """
    if not change.came:
        return ""
    if change.name.startswith(f"{REPORTS}/"):
        return _REPORT
    return _CHECK if change.name == CHECK_FILE else ""


def refuse_kept(change: Change) -> None:
    """Refuse to take back what is kept whatever stands in the season.

    Raises:
        WholeballError: it is.
    """
    says = why_kept(change)
    if says:
        fix = (
            "Write another report if something is missing."
            if says == _REPORT
            else "Take back the rosters that came with it instead."
        )
        raise WholeballError(says, fix=fix, code="conflict")
    _refuse_edition(change)
    _refuse_lots(change)
    _refuse_other_name(change)


def is_of_a_word(change: Change) -> bool:
    """Tell whether a change is of a word on a night: people were told, and read a correction.

    Where both sides differ by the names of sites alone, a site is called otherwise.
    """
    if change.name not in (NOTICES, CLOSURES):
        return False
    gone, came = (list(_words(change.name, rows)) for rows in (change.gone, change.came))
    return gone != came


def refuse_draw_in_use(change: Change, before: SeasonFolder) -> None:
    """Refuse to take back a draw of brackets once a game rests on it.

    Raises:
        WholeballError: a game is planned or was played by it.
    """
    if change.name != BRACKET or not change.came:
        return
    at = list(fields_of(BRACKET)).index("bracket")
    brackets = {meant(row[at]) for row in (*change.gone, *change.came)}
    games = drawn_games(before, brackets)
    if games:
        raise WholeballError(
            f"{counted(len(games), 'game is', 'games are')} planned or played by this draw: "
            f"{_first(list(map(str, games)))}.",
            fix="Nothing was changed. The draw stays; a game that is only planned is taken out "
            "of the plan first.",
            code="conflict",
        )


def refuse_lost_times(before: SeasonFolder, after: SeasonFolder) -> None:
    """Refuse to take back the fields and times at which games are played.

    Raises:
        WholeballError: a game would lose its place.
    """
    left = {(one.night, one.at, one.field) for one in after.planning.slots}
    gone = {(one.night, one.at, one.field) for one in before.planning.slots} - left
    fixtures: tuple[Fixture | OpenFixture, ...] = (*before.timetable, *before.open_fixtures)
    lost = [
        f"game {one.game}, {day(one.day)}, {one.start:%H:%M}, {one.field}"
        for one in fixtures
        if (one.day, one.start, one.field) in gone
    ]
    if lost:
        raise WholeballError(
            f"{counted(len(lost), 'game')} of the timetable {'is' if len(lost) == 1 else 'are'} "
            f"played at fields and times that would be gone: {_first(lost)}.",
            fix="Nothing was changed. Take back the timetable first, or move those games to "
            "other places.",
            code="conflict",
        )


def _words(name: str, rows: Iterable[list[str]]) -> Iterator[list[str]]:
    """Yield the rows that words on nights wrote, without their sites."""
    fields = list(fields_of(name))
    site, why = fields.index("site"), fields.index("why") if name == CLOSURES else None
    for row in rows:
        if why is None or row[why] == CALLED_OFF:
            yield [*row[:site], *row[site + 1 :]]


def _first(names: list[str]) -> str:
    return f"{names[0]} and {len(names) - 1:,} more" if len(names) > 1 else names[0]


def _refuse_lots(change: Change) -> None:
    if change.name.startswith(f"{DRAWS}/"):
        raise WholeballError(
            "A draw of lots is kept as it was promised and held: else one could draw until the "
            "order pleases.",
            fix="Draw again with other words, if whoever rules says so; both are kept.",
            code="conflict",
        )


def _refuse_other_name(change: Change) -> None:
    """Refuse what called a team or an official otherwise: roles and feeds followed, and follow back.

    Of officials one at a time is called otherwise; several rows are a list that was replaced.
    """
    for one in (change, *written_with(change)):
        rows = tuple(zip(one.gone, one.came, strict=False))
        if one.name == TEAMS or (one.name == OFFICIALS and _is_one_row(one)):
            for gone, came in rows:
                if gone[0] != came[0] and gone[1:] == came[1:]:
                    raise WholeballError(
                        f"{gone[0]} is called {came[0]} since, by all who have to do with it.",
                        fix=f"Correct the name back on the page of {came[0]}.",
                        code="conflict",
                    )


def _is_one_row(change: Change) -> bool:
    return len(change.gone) == 1 and len(change.came) == 1


def _refuse_edition(change: Change) -> None:
    if change.name.startswith(f"{EDITIONS}/"):
        raise WholeballError(
            "An edition that another took the place of is kept: games may have been played by it.",
            fix="Take back the change of the rulebook itself instead.",
            code="conflict",
        )
