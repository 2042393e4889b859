"""The packet of a night holds every game, and nothing for staff where captains see it."""

import re
from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from cases.nights import MEADOW, PRINTED, book, night, page_texts
from wholeball.kernel.identity import GameId, SiteId
from wholeball.league.crew import OnCrew
from wholeball.league.place import Field, Site
from wholeball.reports.night import Night, night_sites
from wholeball.reports.night_packet_pdf import night_packet_pdf
from wholeball.reports.typeset import Paper
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import edition


@pytest.fixture(scope="module")
def house() -> Rulebook:
    return book()


def pages(told: Night, rules: Rulebook, paper: Paper = "a4") -> list[str]:
    return page_texts(night_packet_pdf(told, rules, printed=PRINTED, paper=paper))


def kinds(told: list[str]) -> str:
    """Return a letter a page: Night sheet, Emergency, Check, Gate, scorecard, stub, - for none."""
    heads = {
        "Tuesday": "N",
        "Start Field": "N",
        "Emergency": "E",
        "Fields and": "C",
        "Rating stub": "R",
    }
    return "".join(
        next((kind for head, kind in heads.items() if page.startswith(head)), None)
        or ("G" if "Gate list" in page else "S" if "Do not forget" in page else "-")
        for page in told
    )


def seen_by_captains(told: list[str]) -> str:
    return " ".join(page for page, kind in zip(told, kinds(told), strict=True) if kind in "NS")


def test_sheets_that_one_person_takes_away_begin_on_the_front(house: Rulebook) -> None:
    assert kinds(pages(night(4), house)) == "NEC-GGGGS-S-R-R-R-R"


def test_every_game_has_a_line_a_gate_list_a_scorecard_and_a_stub_for_each_of_two_officials(
    house: Rulebook,
) -> None:
    told = pages(night(3), house)
    for kind, times in (("N", 1), ("G", 1), ("S", 1), ("R", 2)):
        some = " ".join(
            page for page, is_of in zip(told, kinds(told), strict=True) if is_of == kind
        )
        for game in ("W0", "W1", "W2"):
            assert len(re.findall(rf"\b{game}\b", some)) == times, (kind, game)


def test_no_reason_is_printed_and_captains_see_neither_a_block_nor_digits(
    house: Rulebook,
) -> None:
    told = pages(night(2, stopped=["Umaru Kealohana"]), house)
    gates = " ".join(page for page, kind in zip(told, kinds(told), strict=True) if kind == "G")
    assert gates.count("See the supervisor before play 2 702 Umaru Kealohana") == 4
    for word in ("suspen", "discipline", "red card", "yellow", "waiver", "cleared", "fee"):
        assert word not in gates
    shown = seen_by_captains(told)
    assert "Umaru Kealohana" in shown
    assert "See the supervisor" not in shown
    assert re.findall(r"\b70[1-3]\b", shown) == []
    assert "ating" not in shown
    stubs = " ".join(page for page, kind in zip(told, kinds(told), strict=True) if kind == "R")
    assert re.findall(r"Noor|Umaru|Ondine|\b70[1-3]\b", stubs) == []


def test_nobody_who_may_not_play_stands_among_those_who_may(house: Rulebook) -> None:
    told = pages(night(1, stopped=["Noor Zephirou"]), house)
    gate = next(page for page in told if "Gate list" in page)
    before, *_ = gate.split("See the supervisor")
    assert "Umaru Kealohana" in before
    assert "Noor" not in before


def test_the_weather_rule_is_on_the_night_sheet_and_promises_nothing(house: Rulebook) -> None:
    told = pages(night(1), house)
    for says in (
        "Thunder heard or a flash seen at the field stops play at once",
        "begins anew with each new thunder or flash",
        "Anyone may stop play. Only the supervisor resumes it.",
        "Shelter: boathouse",
        "The institution's own policy comes first",
    ):
        assert says in told[0]
    assert re.findall(r"\bsafe", " ".join(told)) == []


def test_an_emergency_page_says_what_is_known_of_its_site(house: Rulebook) -> None:
    page = pages(night(1), house)[1]
    assert page.index("Call the emergency number first.") < page.index("14 Weir Lane")
    for known in ("east gate", "key box by the shed", "shed wall", "scorekeeper of Field 2"):
        assert known in page
    assert "not written down" not in page


def test_what_nobody_wrote_down_is_a_marked_blank(house: Rulebook) -> None:
    page = pages(
        night(1, site=Site(site=SiteId("Long Meadow"), address="14 Weir Lane")), house
    )[1]
    assert page.count("not written down") == 6
    assert "AED: not written down" in page
    nowhere = pages(night(1, site=None), house)[1]
    assert nowhere.count("not written down") == 8
    assert "Tonight: Field 1" in nowhere


def test_a_word_that_is_longer_than_a_line_runs_off_no_sheet(house: Rulebook) -> None:
    word = "abcdefghij" * 20
    told = night(1, site=replace(MEADOW, address=word, shelter=f"Gym\n{word}"))
    made = PdfReader(BytesIO(night_packet_pdf(told, house, printed=PRINTED, paper="a4")))
    for number, times in ((0, 1), (1, 2)):
        text = made.pages[number].extract_text()
        assert max(map(len, text.replace("\u200b", "").splitlines())) < len(word)
        assert re.sub(r"[\s\u200b]", "", text).count(word) == times


def test_each_site_has_a_page_in_the_order_in_which_it_is_played_at() -> None:
    hill = Site(site=SiteId("Hill"))
    fields = [Field(field="Field 2", site=MEADOW.site), Field(field="Field 1", site=hill.site)]
    found = night_sites(night(2).games, (MEADOW, hill), fields)
    assert [(one.site, one.fields) for one in found] == [
        (hill, ("Field 1",)),
        (MEADOW, ("Field 2",)),
    ]


def test_fields_without_a_site_stand_together_whatever_else_is_known() -> None:
    fields = [Field(field="Field 2", site=MEADOW.site), Field(field="Field 1", site=None)]
    found = night_sites(night(2).games, (MEADOW,), fields)
    assert [(one.site, one.fields) for one in found] == [
        (None, ("Field 1",)),
        (MEADOW, ("Field 2",)),
    ]


def test_roles_without_an_official_are_blank_and_filled_ones_named(house: Rulebook) -> None:
    crews = [OnCrew(game=GameId("W0"), role="trail", official="R. Farrowby")]
    told = night(1, crews=crews)
    assert told.games[0].crew == (("lead", ""), ("trail", "R. Farrowby"), ("scorekeeper", ""))
    assert "Trail: R. Farrowby" in pages(told, house)[0]


def test_colours_clash_only_where_both_words_are_the_same(house: Rulebook) -> None:
    same = pages(night(1, colours=("navy", "Navy")), house)[0]
    assert "Clash both Navy: bibs for one side" in same
    assert "Clash" not in pages(night(1, colours=("navy", "dark blue")), house)[0]
    assert "Clash" not in pages(night(1, colours=("", "")), house)[0]


def test_a_game_whose_side_is_to_come_stands_on_the_night_sheet_alone(house: Rulebook) -> None:
    told = pages(night(1, open_game=True), house)
    assert "winner of P1" in told[0]
    assert "A side is still to be known: print again" in told[0]
    assert "P9" not in " ".join(told[1:])


def test_a_game_that_is_off_has_a_line_that_says_so_and_no_stub(house: Rulebook) -> None:
    every = night(3)
    first, *rest = every.games
    told = pages(replace(every, games=(replace(first, is_off=True), *rest)), house)
    assert "3 games, 2 on and 1 off, starts" in told[0]
    assert told[0].count("Called off: no scorecard and no gate list is in here.") == 1
    stubs = [page for page, kind in zip(told, kinds(told), strict=True) if kind == "R"]
    assert len(stubs) == 2
    assert "W0" not in " ".join(stubs)


def test_a_rulebook_without_ratings_by_officials_prints_no_stub() -> None:
    assert kinds(pages(night(1), edition("laws-2025-26"))) == "NEC-G-S"


def test_digits_stand_below_each_other_whatever_the_names(house: Rulebook) -> None:
    names = ["Noor Zephirou", "\u05d0\u05d1\u05d2 \u05d3\u05d4", "\U0001f989 Owl", "W" * 50]
    made = night_packet_pdf(night(1, names=names), house, printed=PRINTED, paper="a4")
    gate = PdfReader(BytesIO(made)).pages[4]
    lines = gate.extract_text(extraction_mode="layout").splitlines()
    columns = [
        tuple(found.start() for found in re.finditer(r"70[1-4]", line))
        for line in lines
        if re.search(r"70[1-4]", line)
    ]
    assert len(columns) == 4
    assert len(set(columns)) == 1


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_twelve_games_fit_the_night_sheet_and_thirty_players_a_gate_list(
    house: Rulebook, paper: Paper
) -> None:
    names = [f"Player {chr(65 + nth // 26)}{chr(65 + nth % 26)}" for nth in range(30)]
    told = pages(night(12, names=names, stopped=names[:2]), house, paper)
    assert kinds(told).count("N") == 1
    assert kinds(told).count("G") == 12


def lists_of(players: int, house: Rulebook) -> int:
    names = [f"Player {chr(65 + nth // 26)}{chr(65 + nth % 26)}" for nth in range(players)]
    return kinds(pages(night(1, names=names), house)).count("G")


def test_a_gate_list_goes_over_to_a_second_page_with_its_head(house: Rulebook) -> None:
    last = next(count for count in range(30, 60) if lists_of(count + 1, house) == 2)
    assert lists_of(last, house) == 1
    names = [f"Player {chr(65 + nth // 26)}{chr(65 + nth % 26)}" for nth in range(last + 1)]
    told = pages(night(1, names=names), house)
    gates = [page for page, kind in zip(told, kinds(told), strict=True) if kind == "G"]
    assert [page.count("Team AA") for page in gates] == [1, 1]
    assert names[-1] in gates[1]


def test_the_packet_is_tagged_and_the_same_bytes_again(house: Rulebook) -> None:
    made = night_packet_pdf(night(2), house, printed=PRINTED, paper="a4")
    assert made == night_packet_pdf(night(2), house, printed=PRINTED, paper="a4")
    root: Any = PdfReader(BytesIO(made)).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"


HOSTILE = st.text(
    st.one_of(
        st.sampled_from(
            "aW .#$*_\\\"<>&[](){}@~`'\u00e9\u05d0\u0627\u0e33\u5c71\u200d\u202e\ufe0f"
        ),
        st.sampled_from("\U0001f469\U0001f3fb\U0001f1e6\uff9e\u0301\u093f\U000e0061\u1100"),
    ),
    min_size=1,
    max_size=60,
).filter(lambda name: name.strip() == name)


@settings(max_examples=15, deadline=None)
@given(st.lists(HOSTILE, min_size=1, max_size=4, unique=True), HOSTILE)
def test_no_name_stops_the_printing_or_moves_a_number(names: list[str], team: str) -> None:
    told = pages(night(1, names=names, teams=(f"{team} 1", f"{team} 2")), book())
    gate = next(page for page in told if "Gate list" in page)
    for number in range(1, len(names) + 1):
        assert gate.count(f"{number} {700 + number}") == 2
