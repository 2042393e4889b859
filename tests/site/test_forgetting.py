"""What a change did to private files is kept as long as it can be taken back, and no longer."""

from datetime import timedelta
from typing import Final

import pytest
from django.test import Client

from cases.desk_season import at
from cases.stored import NOW, a_season, an_account
from wholeball.kernel.faults import WholeballError
from wholeball.store.forgetting import KEPT_FOR, forget_private
from wholeball.store.models import Change, Membership, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.taking_back import text_without
from wholeball.store.writing import Writer

pytestmark = pytest.mark.django_db
MOMENT: Final = timedelta(microseconds=1)
PEOPLE: Final = b"person,gender\nk-noor,woman\n"
PRIVATE: Final = {
    "people.csv": PEOPLE,
    "not_cleared.csv": b"person,since\nk-noor,2026-09-15\n",
    "discipline.csv": b"ruling,date,person,game,ruled,games,until,ref,why\n"
    b"1,2026-10-14,k-noor,W53,games,2,,H 11.4,A punch.\n",
    "rosters.csv": b"team,number,name,id_end\nAsh,7,Noor Abernwy,117\n",
    "reports/A1-1.md": b"I saw a punch.\n",
    "seen/A1.md": b"Marked as private by whoever wrote it.\n",
}
REPORTS: Final = [name for name in PRIVATE if name.startswith("reports/")]
"""What is never taken back."""
PUBLIC: Final = {"teams.csv": b"team\nAsh\nBay\n"}


def write(season: Season, contents: dict[str, bytes], after: timedelta = timedelta(0)) -> None:
    now = Season.objects.get(pk=season.pk)
    writer = Writer(account=None, at=NOW + after)
    DatabaseRecord(now, writer).write(contents, private=contents.keys() & {"seen/A1.md"})


def kept() -> dict[str, bool]:
    """Return of which changes the lines are still there."""
    return {one.name: bool(one.gone or one.came) for one in Change.objects.all()}


@pytest.fixture
def season() -> Season:
    made = a_season()
    write(made, {**PRIVATE, **PUBLIC})
    return made


def test_lines_of_private_files_go_when_they_can_no_longer_be_taken_back(
    season: Season,
) -> None:
    assert forget_private(NOW + KEPT_FOR) == 0
    assert set(kept().values()) == {True}
    assert forget_private(NOW + KEPT_FOR + MOMENT) == len(PRIVATE)
    assert kept() == {**dict.fromkeys(PRIVATE, False), **dict.fromkeys(PUBLIC, True)}
    assert forget_private(NOW + KEPT_FOR + MOMENT) == 0
    record = DatabaseRecord(season)
    assert {name: record.read(name, 9_999) for name in PRIVATE} == PRIVATE
    assert all(one.at == NOW and one.version == 1 for one in Change.objects.all())


@pytest.mark.parametrize(("after", "forgotten"), [(KEPT_FOR, 0), (KEPT_FOR + MOMENT, 1)])
def test_the_next_write_forgets_what_is_over(
    season: Season, after: timedelta, forgotten: int
) -> None:
    write(season, {"teams.csv": b"team\nAsh\n"}, after)
    assert Change.objects.filter(name="people.csv", came=[]).count() == forgotten


def test_within_its_time_a_change_is_taken_back_and_afterwards_refused_by_words(
    season: Season,
) -> None:
    write(season, {"people.csv": PEOPLE.replace(b"woman", b"man")}, KEPT_FOR)
    forget_private(NOW + KEPT_FOR + KEPT_FOR)
    change = Change.objects.get(name="people.csv", version=2)
    assert text_without(change) == PEOPLE
    forget_private(NOW + KEPT_FOR + KEPT_FOR + MOMENT)
    with pytest.raises(WholeballError, match="no longer kept") as refused:
        text_without(Change.objects.get(pk=change.pk))
    assert refused.value.code == "forgotten"


def test_the_list_of_changes_offers_no_way_back_where_there_is_none(season: Season) -> None:
    account = an_account()
    Membership.objects.create(
        organisation=season.organisation, account=account, role="coordinator"
    )
    client = Client()
    client.force_login(account)
    address = at("history")
    ways = client.get(address).content.decode().count('<button class="go">Take it back')
    forget_private(NOW + KEPT_FOR + MOMENT)
    page = client.get(address).content.decode()
    assert ways == len(PRIVATE) + len(PUBLIC) - len(REPORTS)
    assert page.count('<button class="go">Take it back') == len(PUBLIC)
    assert page.count("What it was is no longer kept.") == len(PRIVATE)
