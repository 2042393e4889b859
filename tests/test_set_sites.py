"""Sites are added, renamed wherever they are named, and taken out; fields are at one site only."""

from collections.abc import Callable
from dataclasses import replace
from typing import Final
from unicodedata import normalize

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.kept_texts import KeptTexts
from cases.meadow import SEASON
from wholeball.files.folder import read_folder
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import SiteId
from wholeball.league.place import Field, Site
from wholeball.usecases.set_sites import add_site, change_site, drop_site
from wholeball.usecases.show_sites import SiteShown, SitesShown, show_sites

HEAD: Final = "site,address,gate,gate_opener,aed,calls,meets,shelter\n"
SITES: Final = f"{HEAD}Weir,1 Weir Lane,East,Kim,Hut,lead,trail,Gym\nHill,,,,,,,\n"
FIELDS: Final = "field,site\nWeir 1,Weir\nHill 1,Hill\nFar,\n"
SLOTS: Final = (
    "field,weekday,from,until\nWeir 1,monday,18:00,21:00\nHill 1,monday,18:00,21:00\n"
)
CLOSURES: Final = "field,site,date,why\n,Weir,2026-09-21,fair\nFar,,2026-09-22,mud\n"
NOTICES: Final = "date,site,field,state,next_word,says\n2026-09-21,Weir,,off,,Fair.\n"
TIMETABLE: Final = (
    "game,round,date,start,field,home,away\n1,1,2026-09-14,18:00,Old Green,Ash,Birch\n"
)
WEIR: Final = Site(
    site=SiteId("Weir"),
    address="1 Weir Lane",
    gate="East",
    gate_opener="Kim",
    aed="Hut",
    calls="lead",
    meets="trail",
    shelter="Gym",
)
HILL: Final = Site(site=SiteId("Hill"))
EVERY: Final = (
    "Address to give",
    "Gate for the ambulance",
    "Opens the gate",
    "AED",
    "Calls",
    "Meets the ambulance",
    "Shelter",
)


def season(**files: str) -> KeptTexts:
    """Return a season of two teams, with whatever is said of its places."""
    texts = {
        "season.toml": SEASON,
        "rulebook.toml": 'base = "laws-2025-26"\n',
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        "teams.csv": "team\nAsh\nBirch\n",
        **{f"{name}.csv": text for name, text in files.items()},
    }
    return KeptTexts(place="here", texts={name: one.encode() for name, one in texts.items()})


def refused(kept: KeptTexts, change: Callable[[], None]) -> WholeballError:
    """Return why a change is refused; nothing was written by it."""
    before = dict(kept.texts)
    with pytest.raises(WholeballError) as told:
        change()
    assert kept.texts == before
    return told.value


def changed(kept: KeptTexts, before: KeptTexts) -> dict[str, str]:
    """Return the files that a change wrote otherwise."""
    found = {name: data.decode() for name, data in kept.texts.items()}
    return {name: one for name, one in found.items() if before.texts.get(name) != one.encode()}


def test_sites_are_shown_with_their_fields_and_with_what_nobody_wrote_down() -> None:
    kept = season(sites=SITES, fields=FIELDS, slots=SLOTS, closures=CLOSURES)
    assert show_sites(kept) == SitesShown(
        sites=(
            SiteShown(told=WEIR, fields=("Weir 1",), unwritten=()),
            SiteShown(told=HILL, fields=("Hill 1",), unwritten=EVERY),
        ),
        fields=(("Weir 1", "Weir"), ("Hill 1", "Hill"), ("Far", "")),
    )
    shown = show_sites(kept)
    assert (shown.loose, [one.written for one in shown.sites]) == (("Far",), [7, 0])


def test_without_any_list_of_fields_all_that_is_named_somewhere_is_known_once() -> None:
    closures = "field,date\nFar,2026-09-22\nHill 1,2026-09-22\n"
    notices = NOTICES.replace("Weir,,", ",Fen,")
    kept = season(slots=SLOTS, timetable=TIMETABLE, closures=closures, notices=notices)
    assert show_sites(kept) == SitesShown(
        sites=(),
        fields=tuple((one, "") for one in ("Weir 1", "Hill 1", "Old Green", "Far", "Fen")),
    )
    assert show_sites(season()) == SitesShown(sites=(), fields=())


def test_the_first_site_makes_both_lists_and_leaves_no_field_unknown() -> None:
    kept = season(slots=SLOTS, timetable=TIMETABLE)
    add_site(kept, WEIR, ["Weir 1"])
    assert changed(kept, season(slots=SLOTS, timetable=TIMETABLE)) == {
        "sites.csv": f"{HEAD}Weir,1 Weir Lane,East,Kim,Hut,lead,trail,Gym\n",
        "fields.csv": "field,site\nWeir 1,Weir\nHill 1,\nOld Green,\n",
    }
    assert read_folder(kept).fields == (
        Field(field="Weir 1", site=SiteId("Weir")),
        Field(field="Hill 1", site=None),
        Field(field="Old Green", site=None),
    )


def test_a_site_without_a_field_touches_no_list_of_fields() -> None:
    kept = season(slots=SLOTS)
    add_site(kept, HILL, [])
    assert changed(kept, season(slots=SLOTS)) == {"sites.csv": f"{HEAD}Hill,,,,,,,\n"}


def test_a_field_that_is_ticked_at_another_site_moves_there_and_is_at_no_other() -> None:
    kept = season(sites=SITES, fields=FIELDS)
    change_site(kept, "Hill", HILL, ["Hill 1", "Weir 1"])
    assert changed(kept, season(sites=SITES, fields=FIELDS)) == {
        "fields.csv": "field,site\nWeir 1,Hill\nHill 1,Hill\nFar,\n"
    }
    add_site(kept, Site(site=SiteId("Fen")), ["Far", "Weir 1"])
    assert kept.texts["fields.csv"] == b"field,site\nWeir 1,Fen\nHill 1,Hill\nFar,Fen\n"


def test_a_field_that_is_no_longer_ticked_is_at_no_site() -> None:
    kept = season(sites=SITES, fields=FIELDS)
    change_site(kept, "Hill", HILL, [])
    assert changed(kept, season(sites=SITES, fields=FIELDS)) == {
        "fields.csv": "field,site\nWeir 1,Weir\nHill 1,\nFar,\n"
    }


def test_a_list_of_fields_without_sites_gets_its_column() -> None:
    kept = season(sites=SITES, fields="field\nWeir 1\nFar\n")
    change_site(kept, "Weir", WEIR, ["Far"])
    assert kept.texts["fields.csv"] == b"field,site\nWeir 1,\nFar,Weir\n"


def test_a_site_is_called_otherwise_in_every_file_that_names_it() -> None:
    files = {"sites": SITES, "fields": FIELDS, "closures": CLOSURES, "notices": NOTICES}
    kept = season(**files)
    told = replace(WEIR, site=SiteId("Weir, north"), calls="")
    change_site(kept, "Weir", told, ["Weir 1", "Far"])
    assert changed(kept, season(**files)) == {
        "sites.csv": SITES.replace("Weir,1", '"Weir, north",1').replace("lead", ""),
        "fields.csv": 'field,site\nWeir 1,"Weir, north"\nHill 1,Hill\nFar,"Weir, north"\n',
        "closures.csv": CLOSURES.replace("Weir", '"Weir, north"'),
        "notices.csv": NOTICES.replace("Weir", '"Weir, north"'),
    }


def test_a_name_is_changed_back_to_the_byte() -> None:
    files = {"sites": SITES, "fields": FIELDS, "closures": CLOSURES, "notices": NOTICES}
    kept = season(**files)
    change_site(kept, "Weir", replace(WEIR, site=SiteId("Fen")), ["Weir 1"])
    change_site(kept, "Fen", WEIR, ["Weir 1"])
    assert changed(kept, season(**files)) == {}


def test_a_change_that_keeps_the_name_touches_no_other_file_and_no_other_row() -> None:
    files = {"sites": SITES, "fields": FIELDS, "closures": CLOSURES}
    kept = season(**files)
    change_site(kept, "Hill", replace(HILL, aed="Porch"), ["Hill 1"])
    assert changed(kept, season(**files)) == {
        "sites.csv": SITES.replace("Hill,,,,,,,", "Hill,,,,Porch,,,")
    }


def test_a_name_changes_all_at_once_or_not_at_all() -> None:
    kept = season(sites=SITES, fields=FIELDS, closures=CLOSURES)
    told = refused(
        kept, lambda: change_site(kept, "Weir", replace(WEIR, site=SiteId("W" * 81)), [])
    )
    assert isinstance(told, InputFaults)
    assert {(one.place.file, one.place.column, one.code) for one in told.faults} >= {
        ("sites.csv", "site", "limits")
    }
    longest = replace(WEIR, site=SiteId("W" * 80))
    change_site(kept, "Weir", longest, [])
    assert f",{'W' * 80},2026-09-21" in kept.texts["closures.csv"].decode()


@pytest.mark.parametrize("name", ["Weir", "wEIR", " Weir "])
def test_a_name_that_there_is_already_is_refused_whatever_its_capitals(name: str) -> None:
    kept = season(sites=SITES, fields=FIELDS)
    told = refused(kept, lambda: add_site(kept, Site(site=SiteId(name)), []))
    assert isinstance(told, InputFaults)
    assert [str(one) for one in told.faults] == [
        (
            "sites.csv, column site: There is a site of that name: Weir."
            " Give this one another name, or change that one."
        )
    ]
    told = refused(kept, lambda: change_site(kept, "Hill", Site(site=SiteId(name)), ["Hill 1"]))
    assert told.code == "duplicate"
    change_site(kept, "Weir", replace(WEIR, site=SiteId("WEIR")), ["Weir 1"])
    assert kept.texts["fields.csv"].decode() == FIELDS.replace(",Weir", ",WEIR")


def test_a_field_or_a_site_that_is_gone_is_told_and_nothing_is_written() -> None:
    kept = season(sites=SITES, fields=FIELDS)
    gone = "is not there any more. Nothing was changed. Look at what is there now."
    told = refused(kept, lambda: add_site(kept, Site(site=SiteId("Fen")), ["Near"]))
    assert str(told) == f"Field Near {gone}"
    for change in (
        lambda: change_site(kept, "Fen", HILL, []),
        lambda: drop_site(kept, "Fen"),
    ):
        assert str(refused(kept, change)) == f"This site {gone}"


def test_a_site_goes_once_nothing_names_it_and_not_before() -> None:
    kept = season(sites=SITES, fields=FIELDS, closures=CLOSURES, notices=NOTICES)
    assert str(refused(kept, lambda: drop_site(kept, "Weir"))) == (
        "Weir has 1 field (Weir 1), 1 closure and 1 public word. Nothing was changed."
        " Change the site and untick its fields, or tick them at another site."
        " Open its closures again under Days off."
        " A site that people were told of stays: change what is said of it."
    )
    assert str(refused(kept, lambda: drop_site(kept, "Hill"))) == (
        "Hill has 1 field (Hill 1). Nothing was changed."
        " Change the site and untick its fields, or tick them at another site."
    )
    change_site(kept, "Hill", HILL, [])
    drop_site(kept, "Hill")
    assert kept.texts["sites.csv"].decode() == SITES.replace("Hill,,,,,,,\n", "")
    assert [one.told.site for one in show_sites(kept).sites] == ["Weir"]


def test_a_season_that_would_have_a_fault_is_told_and_nothing_is_written() -> None:
    slots = f"{SLOTS}weir 1,tuesday,18:00,21:00\n"
    kept = season(slots=slots)
    told = refused(kept, lambda: add_site(kept, WEIR, ["Weir 1"]))
    assert isinstance(told, InputFaults)
    assert ("fields.csv", "field", "duplicate") in {
        (one.place.file, one.place.column, one.code) for one in told.faults
    }


words = st.text(
    st.characters(
        exclude_categories=("Cs", "Cc", "Zl", "Zp"),
        exclude_characters="\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
        include_characters="\n\t=+-@'\",;",
    ),
    max_size=30,
).map(str.strip)


@given(texts=st.tuples(*[words] * 7))
def test_any_text_typed_comes_back_as_typed_and_no_cell_runs(texts: tuple[str, ...]) -> None:
    names = ("address", "gate", "gate_opener", "aed", "calls", "meets", "shelter")
    told = Site(site=SiteId("Fen"), **dict(zip(names, texts, strict=True)))
    kept = season()
    add_site(kept, told, [])
    again = season(sites=f"{HEAD}Fen,,,,,,,\n")
    change_site(again, "Fen", told, [])
    for one in (kept, again):
        (shown,) = read_folder(one).sites
        assert shown == as_read(told)
    assert kept.texts["sites.csv"] == again.texts["sites.csv"]


def as_read(told: Site) -> Site:
    """Return a site with the letters of its texts put together, as all readers of tables do."""
    names = ("address", "gate", "gate_opener", "aed", "calls", "meets", "shelter")
    texts = {name: normalize("NFC", getattr(told, name)) for name in names}
    return Site(site=told.site, **texts)


@pytest.mark.parametrize(
    ("typed", "cell"),
    [
        ("=1+1", "'=1+1"),
        ("+44 20 7946 0123", "'+44 20 7946 0123"),
        ("@here", "'@here"),
        ("-2", "'-2"),
        ("'=1", "''=1"),
        ("<script>alert(1)</script>", "<script>alert(1)</script>"),
        ("1 Mill Lane", "1 Mill Lane"),
    ],
)
def test_words_that_a_spreadsheet_would_run_get_an_apostrophe(typed: str, cell: str) -> None:
    kept = season()
    add_site(kept, replace(HILL, calls=typed), [])
    assert kept.texts["sites.csv"].decode() == f"{HEAD}Hill,,,,,{cell},,\n"
    assert show_sites(kept).sites[0].told.calls == typed
