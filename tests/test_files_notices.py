"""Tests of notices.csv: what the public was told of a night, and each way to get it wrong."""

from datetime import date, time

import pytest

from wholeball.files.notices import read_notices
from wholeball.files.row_faults import Known
from wholeball.kernel.identity import SiteId
from wholeball.league.notice import Notice

NIGHT = date(2026, 10, 13)
FIELDS = Known(("Meadow 1", "Meadow 2"), "Use a name of fields.csv.")
SITES = Known(("North", "South"), "Use a name of sites.csv.")
HEAD = "date,site,field,state,next_word,says\n"


def test_every_word_is_read_with_its_place_and_its_time() -> None:
    text = (
        f"{HEAD}2026-10-13,,,later,16:30,The ground staff look at four.\n"
        "2026-10-13,North,,off,,\n2026-10-13,,Meadow 1,on,,\n"
    )
    notices, table = read_notices(text.encode(), None, FIELDS, SITES)
    assert not table.faults
    assert notices == (
        Notice(
            night=NIGHT,
            state="later",
            next_word=time(16, 30),
            says="The ground staff look at four.",
        ),
        Notice(night=NIGHT, state="off", site=SiteId("North")),
        Notice(night=NIGHT, state="on", field="Meadow 1"),
    )


@pytest.mark.parametrize(
    ("row", "says", "cure"),
    [
        (
            "2026-10-13,,,later,,",
            "later is told without the time of the next word.",
            "Write the time, such as 16:30.",
        ),
        (
            "2026-10-13,,,off,16:30,",
            "the night is off, and a next word is told for 16:30.",
            "Write later, or no time.",
        ),
        (
            "2026-10-13,North,Meadow 1,on,,",
            "a field and a site are named.",
            "Name the field, or the site: a field has one.",
        ),
        ("2026-10-13,West,,on,,", '"West" is no site of sites.csv.', None),
    ],
)
def test_a_word_that_cannot_be_told_is_refused(row: str, says: str, cure: str | None) -> None:
    notices, table = read_notices(f"{HEAD}{row}\n".encode(), None, FIELDS, SITES)
    assert notices == ()
    assert [one.says for one in table.faults] == [says]
    assert cure in (None, table.faults[0].cure)


def test_a_sentence_may_have_two_hundred_characters_and_not_one_more() -> None:
    longest = "x" * 200
    for sentence, found in ((longest, 1), (f"{longest}x", 0)):
        text = f"{HEAD}2026-10-13,,,off,,{sentence}\n"
        notices, _ = read_notices(text.encode(), None, FIELDS, SITES)
        assert len(notices) == found


def test_a_word_covers_a_field_of_its_site_and_no_other() -> None:
    north = Notice(night=NIGHT, state="off", site=SiteId("North"))
    assert north.covers("Meadow 1", SiteId("North"))
    assert not north.covers("Meadow 2", SiteId("South"))
    assert not north.covers("Meadow 3", None)
    assert Notice(night=NIGHT, state="off").covers("Meadow 3", None)
