"""Begins a season in the database from a preset of the rulebook, for one organisation."""

from datetime import date, datetime

from django.utils.text import slugify

from wholeball.kernel.faults import WholeballError
from wholeball.store.models import Account, Organisation, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.writing import Writer, alone
from wholeball.usecases.start_season import start_season


@alone()
def begin_season(  # noqa: PLR0913 - what a season begins with
    organisation: Organisation,
    *,
    name: str,
    preset: str,
    timezone: str,
    first_day: date,
    by: Account,
    at: datetime,
) -> Season:
    """Return a new season of twelve weeks, with a rulebook and tables to fill in.

    Raises:
        WholeballError: the name is taken, or the preset, the time zone or the day is none.
    """
    season = new_season(organisation, name)
    record = DatabaseRecord(season, Writer(account=by, at=at))
    start_season(record, preset=preset, timezone=timezone, first_day=first_day, name=name)
    return season


def new_season(organisation: Organisation, name: str) -> Season:
    """Return an empty season of that name. 2 queries.

    Raises:
        WholeballError: the organisation has a season of that name, or one that is spelt alike.
    """
    slug = slugify(name)[:60].strip("-") or "season"
    if Season.objects.filter(organisation=organisation, slug=slug).exists():
        raise WholeballError(
            f"There is a season called {name!r} already, or one spelt almost so.",
            fix="Give this one another name.",
            code="taken",
        )
    return Season.objects.create(organisation=organisation, slug=slug, name=name)
