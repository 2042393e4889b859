"""Derives every season's results from its facts again, and says what they come to."""

import hashlib

from wholeball.files.exports import exported
from wholeball.files.folder import read_folder
from wholeball.kernel.canonical import canonical_bytes
from wholeball.kernel.faults import WholeballError
from wholeball.season.season import Season as Played
from wholeball.season.season import pool_tables
from wholeball.store.models import Season
from wholeball.store.record import DatabaseRecord
from wholeball.usecases.show_results import results_of, results_table


def digests_of_results() -> dict[str, str]:
    """Return a digest of the results and tables of each season, by organisation and season."""
    seasons = Season.objects.select_related("organisation").order_by("pk")
    return {f"{one.organisation.slug}/{one.slug}": _digest(one) for one in seasons}


def differences(before: dict[str, str]) -> list[str]:
    """Return the seasons that come to something else than before, or are not there."""
    now = digests_of_results()
    return sorted(
        name for name in before.keys() | now.keys() if before.get(name) != now.get(name)
    )


def _digest(season: Season) -> str:
    """Return what a season's facts come to; facts that cannot be read come to their faults."""
    try:
        read = read_folder(DatabaseRecord(season))
    except WholeballError as refused:
        return hashlib.sha256(f"{refused.code} {refused}".encode()).hexdigest()
    sums = hashlib.sha256(exported(results_table(results_of(read)), "csv"))
    sums.update(_tables(read.season))
    return sums.hexdigest()


def _tables(season: Played) -> bytes:
    """Return the newest table of every pool, each line as it would be shown."""
    tables = {pool: pool_tables(season, pool) for pool in season.league.pools}
    return canonical_bytes(
        {
            pool: [list(row) for row in rounds[-1].standings.rows] if rounds else []
            for pool, rounds in tables.items()
        }
    )
