"""An official's name is corrected wherever it stands, or nowhere; one whom no crew names goes."""

from collections.abc import Callable, Mapping
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Final
from unicodedata import normalize

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from cases.desk_season import CREWS, OFFICIALS, a_folder
from cases.kept_texts import KeptTexts
from cases.paper_cards import ordinary
from cases.paper_season import author
from cases.sealed import GAME, log_of
from cases.stored import texts_of
from wholeball.files.folder import read_folder
from wholeball.files.official_names import FILES, renamed, sealed
from wholeball.files.table import write_table
from wholeball.game.envelope import stored_line
from wholeball.game.happenings import Certified, Rated
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.usecases.correct_official import correct_official, drop_official
from wholeball.usecases.enter_game import enter_card, game_to_enter
from wholeball.usecases.report_incident import report_incident
from wholeball.usecases.show_officials import (
    OfficialShown,
    OfficialsShown,
    OpenNight,
    WorkedGame,
    show_officials,
)

AT: Final = datetime(2026, 9, 16, 20, tzinfo=UTC)
"""15:00 on the day of C1 where the season is played; A1 was played and typed in the day before."""
MORE: Final = CREWS.replace("\n", ",\n").replace("official,\n", "official,day\n") + (
    "A3,referee,Ada Quill,\nA1,scorekeeper,Cy Imbray,2026-09-17\n"
)
"""Ada Quill referees A3 on the 22nd, and Cy Imbray has A1 where it goes on, on the 17th."""
LEFT: Final = "El Marrow"
"""An official whom no crew names."""


@pytest.fixture
def kept(tmp_path: Path) -> KeptTexts:
    folder = a_folder(tmp_path / "season", crews=MORE, officials=f"{OFFICIALS}{LEFT}\n")
    return KeptTexts(place="here", texts=texts_of(folder))


def refused(kept: KeptTexts, change: Callable[[], None]) -> WholeballError:
    before = dict(kept.texts)
    with pytest.raises(WholeballError) as told:
        change()
    assert kept.texts == before
    return told.value


def changed(before: Mapping[str, bytes], after: Mapping[str, bytes]) -> dict[str, str]:
    assert set(before) == set(after)
    return {name: data.decode() for name, data in after.items() if data != before[name]}


def test_the_new_name_stands_wherever_the_old_one_did_and_nothing_else_is_other(
    kept: KeptTexts,
) -> None:
    before = dict(kept.texts)
    correct_official(kept, "Cy Imbray", "  =Cy, Imbrey ")
    assert changed(before, kept.texts) == {
        "officials.csv": 'official\nAda Quill\nBo Tarn\n"\'=Cy, Imbrey"\nDi Lund\nEl Marrow\n',
        "crews.csv": MORE.replace("Cy Imbray", '"\'=Cy, Imbrey"'),
    }
    assert [one.official for one in read_folder(kept).officials][2] == "=Cy, Imbrey"


NAME: Final = st.text(
    st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=20
).map(lambda one: normalize("NFC", one))


@settings(max_examples=200)
@given(st.lists(NAME, min_size=1, max_size=5, unique_by=str.casefold), NAME, st.data())
def test_a_name_that_is_corrected_there_and_back_leaves_the_same_files(
    names: list[str], new: str, data: st.DataObject
) -> None:
    assume(new.casefold() not in {one.casefold() for one in names})
    old = data.draw(st.sampled_from(names))
    crews = data.draw(st.lists(st.sampled_from(names), max_size=6))
    texts = {
        "officials.csv": write_table(["official"], [[one] for one in names]),
        "crews.csv": write_table(
            ["game", "role", "official"],
            [[f"G{at}", "referee", one] for at, one in enumerate(crews)],
        ),
    }
    there = {**texts, **renamed(texts, old, new)}
    assert there != texts
    assert {**there, **renamed(there, new, old)} == texts


def test_a_whole_season_is_what_it_was_once_a_name_is_corrected_back(kept: KeptTexts) -> None:
    before = dict(kept.texts)
    correct_official(kept, "Ada Quill", "Ada Quille")
    assert set(changed(before, kept.texts)) == set(FILES)
    correct_official(kept, "Ada Quille", "Ada Quill")
    assert kept.texts == before


@pytest.mark.parametrize("name", ["Bo Tarn", "bO tARN", " Bo Tarn"])
def test_a_name_that_another_official_has_is_refused(kept: KeptTexts, name: str) -> None:
    told = refused(kept, lambda: correct_official(kept, "Ada Quill", name))
    assert isinstance(told, InputFaults)
    assert [(one.place.column, one.says) for one in told.faults] == [
        ("official", "There is an official of that name: Bo Tarn.")
    ]


def test_an_official_may_change_the_capitals_of_the_own_name(kept: KeptTexts) -> None:
    correct_official(kept, "Ada Quill", "ADA Quill")
    assert read_folder(kept).officials[0].official == "ADA Quill"


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("a" * 81, "Shorten it: at most 80 characters."),
        ("", "the cell is empty."),
        ("two\nlines", "Write it on one line."),
    ],
)
def test_a_name_that_no_official_can_have_is_refused_by_the_reader(
    kept: KeptTexts, name: str, says: str
) -> None:
    assert says in str(refused(kept, lambda: correct_official(kept, "Ada Quill", name)))


def test_the_longest_name_is_taken(kept: KeptTexts) -> None:
    correct_official(kept, "Ada Quill", "a" * 80)
    assert read_folder(kept).officials[0].official == "a" * 80


def test_who_is_not_there_is_told(kept: KeptTexts) -> None:
    for change in (
        lambda: correct_official(kept, "No One", "Ada"),
        lambda: drop_official(kept, "No One", at=AT),
    ):
        assert refused(kept, change).says == "This official is not there any more."


def test_who_signed_entries_or_wrote_reports_keeps_the_name(kept: KeptTexts) -> None:
    enter_card(game_to_enter(kept, GameId("A2")), ordinary(), by=author(name="ada quill"))
    report_incident(kept, GameId("A1"), by="Ada Quill", says="A punch.", at=AT)
    told = refused(kept, lambda: correct_official(kept, "Ada Quill", "Ada Quille"))
    assert str(told) == (
        "Ada Quill has signed what is sealed: the log of game A2 and a report about game A1."
        " Nothing was changed. What was recorded stays as it was signed, so the official keeps"
        " that name here: give the right one in the next season."
    )
    correct_official(kept, "Bo Tarn", "Bo Tarne")


def test_a_log_names_who_made_an_entry_and_who_certified_and_nobody_else() -> None:
    """A rating says of which official it is by a word that is no name."""
    what = (
        Certified(by="Bo Tarn", state="", frontier=()),
        Rated(side="home", by="official", hundredths=300),
    )
    log = b"".join(stored_line(one) + b"\n" for one in log_of(what))
    kept = KeptTexts(place="here", texts={f"games/{GAME}.jsonl": log})
    names = ("bo tarn", "U-1", "official", "Bo", "Ada Quill")
    assert {name: tuple(sealed(kept, name)) for name in names} == {
        "bo tarn": (f"the log of game {GAME}",),
        "U-1": (f"the log of game {GAME}",),
        "official": (),
        "Bo": (),
        "Ada Quill": (),
    }


def test_more_than_three_sealed_texts_are_counted(kept: KeptTexts) -> None:
    for game in ("A1", "A2", "A3", "C1", "C2"):
        report_incident(kept, GameId(game), by="Bo Tarn", says="A punch.", at=AT)
    told = refused(kept, lambda: correct_official(kept, "Bo Tarn", "Bo Tarne"))
    assert told.says == (
        "Bo Tarn has signed what is sealed: a report about game A1, a report about game A2,"
        " a report about game A3 and 2 more."
    )


def test_who_is_on_the_crew_of_a_game_to_come_stays_until_it_is_given_to_another(
    kept: KeptTexts,
) -> None:
    told = refused(kept, lambda: drop_official(kept, "Cy Imbray", at=AT))
    assert str(told) == (
        "Cy Imbray is on the crew of game C1 on Wednesday 16 September, the rest of game A1 on"
        " Thursday 17 September and game A2 on Thursday 17 September. Nothing was changed. Give"
        " them to somebody else first."
    )
    told = refused(kept, lambda: drop_official(kept, "Ada Quill", at=AT))
    assert str(told) == (
        "Ada Quill is on the crew of game A3 on Tuesday 22 September. Nothing was changed. Give"
        " it to somebody else first."
    )


@pytest.mark.parametrize(
    ("at", "says"),
    [
        (datetime(2026, 9, 17, 4, 59, tzinfo=UTC), "Di Lund is on the crew of game C1"),
        (datetime(2026, 9, 17, 5, 0, tzinfo=UTC), "Di Lund was on the crew of game C1"),
    ],
)
def test_a_game_is_to_come_until_its_day_is_over_where_it_is_played(
    kept: KeptTexts, at: datetime, says: str
) -> None:
    told = refused(kept, lambda: drop_official(kept, "Di Lund", at=at))
    assert told.says == f"{says} on Wednesday 16 September."


def test_who_worked_a_game_stays_listed(kept: KeptTexts) -> None:
    told = refused(kept, lambda: drop_official(kept, "Bo Tarn", at=AT))
    assert str(told) == (
        "Bo Tarn was on the crew of game A1 on Tuesday 15 September. Nothing was changed."
        " Whoever worked a game stays listed, so that it stays known who did. There is nothing"
        " to do: name somebody else from now on."
    )


def test_a_game_that_was_played_before_its_day_is_over_is_not_to_come(kept: KeptTexts) -> None:
    """A1 was typed in on the evening of the 15th, when that day is not over."""
    evening = datetime(2026, 9, 16, 2, tzinfo=UTC)
    told = refused(kept, lambda: drop_official(kept, "Bo Tarn", at=evening))
    assert told.says == "Bo Tarn was on the crew of game A1 on Tuesday 15 September."


def test_whom_no_crew_names_is_taken_out_and_nothing_else(kept: KeptTexts) -> None:
    before = dict(kept.texts)
    drop_official(kept, LEFT, at=AT)
    assert changed(before, kept.texts) == {"officials.csv": OFFICIALS}


def worked(game: str, role: str, day: int, sides: str, **keys: bool) -> WorkedGame:
    on = date(2026, 9, day)
    given = {"is_to_come": True, **keys}
    return WorkedGame(game=GameId(game), role=role, day=on, sides=sides, **given)


def test_officials_are_shown_with_their_games_and_the_posts_that_nobody_fills(
    kept: KeptTexts,
) -> None:
    shown = show_officials(kept, at=AT)
    ash = "Ash v Birch"
    assert shown == OfficialsShown(
        officials=(
            OfficialShown(
                official="Ada Quill",
                worked=(
                    worked("A1", "referee", 15, ash, is_to_come=False),
                    worked("A3", "referee", 22, "Ash v Elder"),
                ),
            ),
            OfficialShown(
                official="Bo Tarn",
                worked=(worked("A1", "scorekeeper", 15, ash, is_to_come=False),),
            ),
            OfficialShown(
                official="Cy Imbray",
                worked=(
                    worked("C1", "referee", 16, "Cedar v Dogwood"),
                    worked("A1", "scorekeeper", 17, ash, is_resumed=True),
                    worked("A2", "referee", 17, "Birch v Ash"),
                ),
            ),
            OfficialShown(
                official="Di Lund",
                worked=(worked("C1", "scorekeeper", 16, "Cedar v Dogwood"),),
            ),
            OfficialShown(official=LEFT, worked=()),
        ),
        nights=(
            OpenNight(day=date(2026, 9, 17), posts=3, games=2),
            OpenNight(day=date(2026, 9, 22), posts=1, games=1),
            OpenNight(day=date(2026, 9, 24), posts=2, games=1),
        ),
        is_planned=True,
    )
    assert shown.missing == 6
    ada, *_, left = shown.officials
    assert (ada.games, ada.next, left.games, left.next) == (2, ada.worked[1], 0, None)
    assert shown.nights[0].says == "3 posts of 2 games"


def test_an_official_of_two_nights_of_one_game_has_one_game(kept: KeptTexts) -> None:
    kept.texts["crews.csv"] = (MORE + "A1,referee,Bo Tarn,2026-09-17\n").encode()
    bo = show_officials(kept, at=AT).officials[1]
    assert (bo.games, len(bo.worked)) == (1, 2)


def test_after_the_last_game_no_post_is_open(kept: KeptTexts) -> None:
    last = show_officials(kept, at=datetime(2026, 9, 25, 4, 59, tzinfo=UTC))
    over = show_officials(kept, at=datetime(2026, 9, 25, 5, 0, tzinfo=UTC))
    assert (last.missing, last.is_planned) == (2, True)
    assert (over.nights, over.is_planned) == ((), False)
