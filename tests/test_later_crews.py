"""A game that was stopped has a crew for the night on which it goes on, beside its first one.

No outside source: an invented league with its own rules.
"""

from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final

import pytest

from cases.desk_season import CREW, OFFICIALS
from cases.people_season import RULES, enter, write_people
from cases.stopped_game import SUNDAY, stop, went_on
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.season.raters import rated_in
from wholeball.usecases.check_season import check_season
from wholeball.usecases.later_nights import LaterNight, later_nights, on_night
from wholeball.usecases.set_crews import LaterCrew, Post, set_crews, show_crews
from wholeball.usecases.show_nights import LaterLine, show_night, show_nights
from wholeball.usecases.show_today import today_of

A1, C2 = GameId("A1"), GameId("C2")
TUESDAY, THURSDAY = date(2026, 9, 15), date(2026, 9, 17)
CREWS: Final = "game,role,official\nA1,referee,Ada Quill\nA1,scorekeeper,Bo Tarn\n"
NOON: Final = datetime(2026, 9, 16, 12, tzinfo=UTC)


@pytest.fixture
def record(tmp_path: Path) -> FolderRecord:
    """Return a season in which A1 was stopped on Tuesday."""
    folder = write_people(
        tmp_path / "season", rules=RULES + CREW, crews=CREWS, officials=OFFICIALS
    )
    return FolderRecord(stop(folder, "A1"))


def read(record: FolderRecord) -> SeasonFolder:
    return read_folder(record)


def text(record: FolderRecord) -> str:
    return (record.path / "crews.csv").read_text(encoding="utf-8")


def later_of(record: FolderRecord, night: date) -> list[tuple[str, bool, date]]:
    found = on_night(read(record), night)
    return [(one.fixture.game, one.is_named, one.before) for one in found]


def test_a_game_that_was_stopped_may_go_on_on_every_later_night_and_on_none_before(
    record: FolderRecord,
) -> None:
    assert later_nights(read(record)) == ()
    assert later_of(record, TUESDAY) == []
    assert later_of(record, date(2026, 9, 16)) == [("A1", False, TUESDAY)]
    assert later_of(record, SUNDAY) == [("A1", False, TUESDAY)]


def test_a_game_of_which_a_ruling_says_the_result_goes_on_no_more(record: FolderRecord) -> None:
    rulings = "ruling,date,game,ruled,ref,why\n1,2026-09-16,A1,annulled,H 3.5,No field.\n"
    (record.path / "rulings.csv").write_text(rulings, encoding="utf-8")
    assert later_of(record, SUNDAY) == []


def test_a_crew_of_a_later_night_is_written_with_its_day_and_the_first_one_stays(
    record: FolderRecord,
) -> None:
    assert show_crews(record, SUNDAY).games == ()
    assert show_crews(record, SUNDAY).later == (
        LaterCrew(
            game=A1,
            home="Ash",
            away="Birch",
            before="Tuesday 15 September",
            is_named=False,
            posts=(
                Post(place=0, role="referee", official=""),
                Post(place=1, role="scorekeeper", official=""),
            ),
        ),
    )
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray", (A1, 1): "Bo Tarn"})
    assert text(record) == (
        "game,role,official,day\n"
        "A1,referee,Ada Quill,\n"
        "A1,scorekeeper,Bo Tarn,\n"
        "A1,referee,Cy Imbray,2026-09-20\n"
        "A1,scorekeeper,Bo Tarn,2026-09-20\n"
    )
    (fixture,) = [one for one in read(record).timetable if one.game == "A1"]
    named = LaterNight(fixture=fixture, day=SUNDAY, before=TUESDAY)
    assert later_nights(read(record)) == (named,)
    assert on_night(read(record), SUNDAY) == (named,)
    shown = show_crews(record, SUNDAY)
    assert (shown.missing, shown.is_night, shown.later[0].posts[0].official) == (
        0,
        True,
        "Cy Imbray",
    )


def test_first_and_later_crews_of_one_night_are_kept_apart(record: FolderRecord) -> None:
    set_crews(record, THURSDAY, {(A1, 0): "Di Lund", (C2, 0): "Ada Quill"})
    assert text(record).splitlines()[1:] == [
        "A1,referee,Ada Quill,",
        "A1,scorekeeper,Bo Tarn,",
        "C2,referee,Ada Quill,",
        "A1,referee,Di Lund,2026-09-17",
    ]
    set_crews(record, TUESDAY, {(A1, 0): "Cy Imbray"})
    assert text(record).splitlines()[1:] == [
        "C2,referee,Ada Quill,",
        "A1,referee,Di Lund,2026-09-17",
        "A1,referee,Cy Imbray,",
    ]


def test_what_only_may_go_on_misses_nobody_and_what_goes_on_does(record: FolderRecord) -> None:
    assert (show_crews(record, SUNDAY).missing, show_crews(record, SUNDAY).is_night) == (
        0,
        False,
    )
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray"})
    assert show_crews(record, SUNDAY).missing == 1


def test_a_night_is_given_up_by_naming_nobody_and_another_is_taken(
    record: FolderRecord,
) -> None:
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray"})
    assert later_of(record, date(2026, 9, 21)) == [("A1", False, SUNDAY)]
    set_crews(record, SUNDAY, {})
    assert later_nights(read(record)) == ()
    assert text(record).splitlines() == [
        "game,role,official,day",
        "A1,referee,Ada Quill,",
        "A1,scorekeeper,Bo Tarn,",
    ]
    set_crews(record, date(2026, 9, 21), {(A1, 0): "Di Lund"})
    assert later_of(record, SUNDAY) == []


def test_somebody_has_one_role_in_a_game_on_a_later_night_too(record: FolderRecord) -> None:
    before = text(record)
    with pytest.raises(InputFaults) as refused:
        set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray", (A1, 1): "Cy Imbray"})
    assert [(one.code, one.place.column) for one in refused.value.faults] == [
        ("duplicate", "official")
    ]
    assert text(record) == before


def test_an_official_whose_own_team_goes_on_is_a_doubt(record: FolderRecord) -> None:
    people = "official,person\nAda Quill,\nBo Tarn,\nCy Imbray,k-umaru\nDi Lund,\n"
    (record.path / "officials.csv").write_text(people, encoding="utf-8")
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray"})
    found = [
        one.says for one in check_season(record, on=SUNDAY).remarks if one.code == "own_team"
    ]
    assert found == [
        "Cy Imbray works game A1 and is on the roster of Ash, which plays it (H 2.1)."
    ]


def test_a_day_on_which_nothing_is_played_or_goes_on_has_no_crews(tmp_path: Path) -> None:
    record = FolderRecord(write_people(tmp_path / "plain", rules=RULES + CREW))
    with pytest.raises(WholeballError) as refused:
        set_crews(record, SUNDAY, {})
    assert refused.value.code == "no_game"


def test_a_night_that_the_log_tells_is_shown_and_its_crew_can_still_be_named(
    record: FolderRecord,
) -> None:
    enter(record.path, "A1", went_on(SUNDAY), batch=2)
    assert later_of(record, SUNDAY) == [("A1", True, TUESDAY)]
    assert later_of(record, date(2026, 9, 21)) == []
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray"})
    now = read(record)
    sheet = next(one for one in now.sheets if one.fixture.game == "A1")
    assert (sheet.resumed_on, sheet.to_go_on, sheet.has_ended) == ((SUNDAY,), False, True)
    roles = now.season.rulebook.crew.roles
    assert [one.official for one in rated_in([sheet], now.crews, roles)] == ["Cy Imbray"]


def test_a_game_that_went_on_on_a_day_nobody_wrote_down_is_on_no_night(
    record: FolderRecord,
) -> None:
    enter(record.path, "A1", went_on(None), batch=2)
    assert (later_nights(read(record)), later_of(record, SUNDAY)) == ((), [])


def test_the_nights_of_a_season_have_those_on_which_games_go_on(record: FolderRecord) -> None:
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray"})
    found = show_nights(record, at=NOON, may=lambda _: True).nights
    assert [(one.day.day, one.games, one.later) for one in found if one.day.day < 22] == [
        (15, 1, 0),
        (16, 1, 0),
        (17, 2, 0),
        (20, 1, 1),
    ]
    shown = show_night(record, SUNDAY, at=NOON, may=lambda _: True)
    assert (shown.games, shown.left, shown.played) == ((), 1, ("A1",))
    assert (shown.before, shown.after) == (THURSDAY, date(2026, 9, 22))
    assert shown.later == (
        LaterLine(
            game=A1,
            home="Ash",
            away="Birch",
            before="Tuesday 15 September",
            crew=(("referee", "Cy Imbray"), ("scorekeeper", "")),
            score="",
            state="before",
            word="to go on",
        ),
    )
    with pytest.raises(WholeballError):
        show_night(record, SUNDAY, at=NOON, may=lambda game: game != "A1")


def settled(record: FolderRecord, day: date) -> list[tuple[str, str, str]]:
    found = today_of(read(record), day).to_settle
    return [(f"{one.says}", one.where, one.of) for one in found if "A1" in f"{one.says}"]


def test_a_day_asks_for_a_night_for_what_was_stopped_and_then_for_its_whole_crew(
    record: FolderRecord,
) -> None:
    asks = (
        "Tuesday 15 September, game A1, Ash v Birch: it was stopped, and no night to come is "
        "named for the rest."
    )
    assert settled(record, TUESDAY) == []
    assert settled(record, date(2026, 9, 16)) == [(asks, "game", "A1")]
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray"})
    assert settled(record, date(2026, 9, 16)) == []
    assert settled(record, SUNDAY) == [
        ("Game A1 goes on and has no scorekeeper.", "crews", "A1")
    ]
    assert today_of(read(record), SUNDAY).later == 1
    assert settled(record, date(2026, 9, 21)) == [(asks, "game", "A1")]
    set_crews(record, SUNDAY, {(A1, 0): "Cy Imbray", (A1, 1): "Di Lund"})
    assert settled(record, SUNDAY) == []
