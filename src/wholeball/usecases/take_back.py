"""Takes back a change that was made to a season, as a change of its own that is kept as well."""

from collections.abc import Iterable, Iterator

from wholeball.files.any_cell import meant
from wholeball.files.editions import FOLDER as EDITIONS
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.rulebook_file import FILE as RULEBOOK
from wholeball.files.sites import FILE as SITES
from wholeball.files.timetable import FILE as TIMETABLE
from wholeball.kernel.faults import InputFaults
from wholeball.league.record import LeagueRecord
from wholeball.store.changes import told
from wholeball.store.models import Change
from wholeball.store.queries.history import written_with
from wholeball.store.record import DatabaseRecord
from wholeball.store.season_name import follow_name
from wholeball.store.site_follows import follow_site
from wholeball.store.taking_back import text_without
from wholeball.usecases.kept_changes import (
    is_of_a_word,
    refuse_draw_in_use,
    refuse_kept,
    refuse_lost_times,
    why_kept,
)
from wholeball.usecases.publish_edition import publish_edition, rulebook_text
from wholeball.usecases.season_draws import FOLDER as DRAWS


def take_back(record: DatabaseRecord, change: Change) -> str:
    """Take a change back, and return in words what it was.

    What does not stand without it, as where a name was changed in several files, is taken back
    with it, if the same write changed that too. An edition of the rulebook is taken back by
    publishing what it changed as one more edition: games that were played by it are counted by
    it for ever.

    Raises:
        InputFaults: everything that would be wrong with the season without it.
        WholeballError: what it wrote was changed since, or it cannot be kept, or it is never
            taken back.
    """
    with record.held():
        refuse_kept(change)
        if change.name == RULEBOOK:
            text = text_without(change)
            publish_edition(record, base=rulebook_text(record), text=text)
            return told(change)
        before = _as_it_is(record)
        changes = _that_stand(record, change, before)
        record.write({one.name: text_without(one) for one in changes})
        if before is not None:
            _follow_name(record, before)
        for old, new in _other_sites(changes):
            follow_site(record.season, old, new)
    return "; ".join(map(told, changes))


def text_before(record: LeagueRecord, change: Change) -> bytes:
    """Return what a file would hold without a change; nothing is written.

    Raises:
        InputFaults: everything that would be wrong with the season then.
        WholeballError: what it wrote was changed since.
    """
    data = text_without(change)
    read_folder(record, instead={change.name: data})
    return data


def _follow_name(record: DatabaseRecord, before: SeasonFolder) -> None:
    follow_name(
        record.season, before.season.league.name, read_folder(record).season.league.name
    )


def _that_stand(
    record: LeagueRecord, change: Change, before: SeasonFolder | None
) -> list[Change]:
    """Return a change, and if need be those written with it, without which a season stands.

    Raises:
        InputFaults: everything that would be wrong with the season without it.
        WholeballError: what one of them wrote was changed since, or games rest on it.
    """
    changes = [change]
    if before is not None:
        refuse_draw_in_use(change, before)
    try:
        after = read_folder(record, instead={change.name: text_without(change)})
    except InputFaults:
        beside = written_with(change)
        if not beside or any(map(_has_its_own_way, beside)):
            raise
        changes = [change, *beside]
        after = read_folder(record, instead={one.name: text_without(one) for one in changes})
    if before is not None:
        refuse_lost_times(before, after)
    return changes


def _as_it_is(record: LeagueRecord) -> SeasonFolder | None:
    """Return the season; None where it cannot be read, and taking back may be what mends it."""
    try:
        return read_folder(record)
    except InputFaults:
        return None


def _has_its_own_way(change: Change) -> bool:
    """Tell whether a file is not simply taken back: people were told, or games count by it."""
    if is_of_a_word(change) or why_kept(change):
        return True
    return change.name in (RULEBOOK, TIMETABLE) or change.name.startswith(
        (f"{EDITIONS}/", f"{DRAWS}/")
    )


def _other_sites(changes: Iterable[Change]) -> Iterator[tuple[str, str]]:
    """Yield what each site was called until a change is taken back, and what it is called then."""
    for change in changes:
        if change.name == SITES and len(change.gone) == len(change.came):
            for gone, came in zip(change.gone, change.came, strict=True):
                yield meant(came[0]), meant(gone[0])
