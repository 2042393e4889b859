"""Reports of incidents are private texts of a season, in a folder as in any record."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.kept_texts import KeptTexts
from cases.people_season import write_people
from cases.stored import texts_of
from wholeball.files.folder_record import FolderRecord
from wholeball.files.incident_reports import IncidentReport, new_report, read_reports
from wholeball.files.season_texts import gathered
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.report_incident import incident_reports, report_incident

AT = datetime(2026, 9, 15, 23, 30, tzinfo=UTC)
A1, A11 = GameId("A1"), GameId("A11")


@given(st.text(st.characters(exclude_categories=("Cc", "Cf", "Cs", "Zl", "Zp", "Co", "Cn"))))
def test_whatever_people_write_is_read_as_they_wrote_it(says: str) -> None:
    words = f"x{says}x"
    report = IncidentReport(game=A1, number=1, by="Ada", at="then", says=words)
    name, data = new_report(report)
    kept = KeptTexts(place="here", texts={name: data})
    assert read_reports(kept, A1) == (report,)


def test_reports_are_numbered_and_each_writer_reads_their_own(tmp_path: Path) -> None:
    record = FolderRecord(write_people(tmp_path / "season"))
    for by, what in (("Ada", "it"), ("Bo", "it"), ("Ada", "more")):
        report_incident(record, A1, by=by, says=f"{by} saw {what}.", at=AT)
    own = incident_reports(record, A1, own="Ada")
    assert [(one.number, one.by) for one in own] == [(1, "Ada"), (3, "Ada")]
    assert own[0].at == "Tuesday 15 September 2026, 18:30"
    assert len(incident_reports(record, A1, own=None)) == 3
    assert incident_reports(record, A11, own=None) == ()


def test_a_report_that_is_sent_twice_in_a_minute_is_kept_once(tmp_path: Path) -> None:
    record = FolderRecord(write_people(tmp_path / "season"))
    sent = [
        report_incident(record, A1, by=by, says=says, at=at).number
        for by, says, at in (
            ("Ada", "A punch.", AT),
            ("Ada", " A punch.\r\n", AT + timedelta(seconds=59)),
            ("Bo", "A punch.", AT),
            ("Ada", "A punch.", AT),
            ("Ada", "A punch.", AT + timedelta(seconds=60)),
        )
    ]
    assert sent == [1, 1, 2, 1, 3]
    assert len(incident_reports(record, A1, own=None)) == 3


def test_reports_go_with_the_season_wherever_it_goes(tmp_path: Path) -> None:
    folder = write_people(tmp_path / "season")
    report_incident(FolderRecord(folder), A1, by="Ada", says="A punch.", at=AT)
    found = gathered(FolderRecord(folder))
    assert found.left_out == ()
    assert dict(found.texts.texts) == texts_of(folder)


def test_nobody_but_its_owner_may_read_the_file(tmp_path: Path) -> None:
    folder = write_people(tmp_path / "season")
    report_incident(FolderRecord(folder), A1, by="Ada", says="A punch.", at=AT)
    assert (folder / "reports" / "A1.1.toml").stat().st_mode & 0o077 == 0


@pytest.mark.parametrize("says", ["", " \n ", "a\u202eb", "a\x00b", "x" * 5001])
def test_what_nobody_can_read_is_no_report(says: str) -> None:
    with pytest.raises(WholeballError):
        new_report(IncidentReport(game=A1, number=1, by="Ada", at="then", says=says))
