"""Takes back a change that was made to a season, as a change of its own that is kept as well."""

from collections.abc import Iterable, Iterator

from wholeball.files.any_cell import meant
from wholeball.files.editions import FOLDER
from wholeball.files.folder import read_folder
from wholeball.files.notices import FILE as NOTICES
from wholeball.files.officials import FILE as OFFICIALS
from wholeball.files.rulebook_file import FILE as RULEBOOK
from wholeball.files.sites import FILE as SITES
from wholeball.files.teams import FILE as TEAMS
from wholeball.files.timetable import FILE as TIMETABLE
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.league.record import LeagueRecord
from wholeball.store.changes import told
from wholeball.store.models import Change
from wholeball.store.models.tables import fields_of
from wholeball.store.queries.history import written_with
from wholeball.store.record import DatabaseRecord
from wholeball.store.site_follows import follow_site
from wholeball.store.taking_back import text_without
from wholeball.usecases.publish_edition import publish_edition, rulebook_text
from wholeball.usecases.season_draws import FOLDER as DRAWS


def take_back(record: DatabaseRecord, change: Change) -> str:
    """Take a change back, and return in words what it was.

    What does not stand without it, as where a name was changed in several files, is taken back
    with it, if the same write changed that too. An edition of the rulebook is taken back by publishing what it changed as one more edition:
    games that were played by it are counted by it for ever.

    Raises:
        InputFaults: everything that would be wrong with the season without it.
        WholeballError: what it wrote was changed since, or it cannot be kept.
    """
    with record.held():
        _refuse_edition(change)
        _refuse_draw(change)
        _refuse_other_name(change)
        if change.name == RULEBOOK:
            text = text_without(change)
            publish_edition(record, base=rulebook_text(record), text=text)
            return told(change)
        changes = _that_stand(record, change)
        record.write({one.name: text_without(one) for one in changes})
        for old, new in _other_sites(changes):
            follow_site(record.season, old, new)
    return "; ".join(map(told, changes))


def names_site_alone(change: Change) -> bool:
    """Tell whether all that a change did to public words is to call their site otherwise."""
    at = list(fields_of(change.name)).index("site")
    gone, came = (
        [[*row[:at], *row[at + 1 :]] for row in rows] for rows in (change.gone, change.came)
    )
    return gone == came


def text_before(record: LeagueRecord, change: Change) -> bytes:
    """Return what a file would hold without a change; nothing is written.

    Raises:
        InputFaults: everything that would be wrong with the season then.
        WholeballError: what it wrote was changed since.
    """
    data = text_without(change)
    read_folder(record, instead={change.name: data})
    return data


def _that_stand(record: LeagueRecord, change: Change) -> list[Change]:
    """Return a change, and if need be those written with it, without which a season stands.

    Raises:
        InputFaults: everything that would be wrong with the season without it.
        WholeballError: what one of them wrote was changed since.
    """
    try:
        read_folder(record, instead={change.name: text_without(change)})
    except InputFaults:
        beside = written_with(change)
        if not beside or any(map(_has_its_own_way, beside)):
            raise
        changes = [change, *beside]
        read_folder(record, instead={one.name: text_without(one) for one in changes})
        return changes
    return [change]


def _has_its_own_way(change: Change) -> bool:
    """Tell whether a file is not simply taken back: people were told, or games count by it."""
    if change.name == NOTICES:
        return not names_site_alone(change)
    return change.name in (RULEBOOK, TIMETABLE) or change.name.startswith(
        (f"{FOLDER}/", f"{DRAWS}/")
    )


def _other_sites(changes: Iterable[Change]) -> Iterator[tuple[str, str]]:
    """Yield what each site was called until a change is taken back, and what it is called then."""
    for change in changes:
        if change.name == SITES and len(change.gone) == len(change.came):
            for gone, came in zip(change.gone, change.came, strict=True):
                yield meant(came[0]), meant(gone[0])


def _refuse_draw(change: Change) -> None:
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
    if change.name.startswith(f"{FOLDER}/"):
        raise WholeballError(
            "An edition that another took the place of is kept: games may have been played by it.",
            fix="Take back the change of the rulebook itself instead.",
            code="conflict",
        )
