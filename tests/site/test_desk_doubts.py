"""What is to be looked at in a season stands on a page of its own, each line with its link."""

import re
from html import unescape
from pathlib import Path
from typing import Final

import pytest
from django.test import Client

from cases.board_season import a_board
from cases.desk_season import HERE, a_desk, member, put_season
from cases.people_season import write_people
from cases.stored import a_season, written_by
from wholeball.desk.leads import Lead, lead_of
from wholeball.kernel.faults import Fault, Place
from wholeball.league.ways import named_in, on_pages
from wholeball.store.models import AuditRow
from wholeball.usecases.show_doubts import Remark

pytestmark = pytest.mark.django_db


def lines(client: Client, day: str = "2026-10-01") -> list[tuple[str, str, str]]:
    answer = client.get(f"{HERE}doubts/", {"day": day})
    assert answer.status_code == 200
    body = answer.content.decode().split("<main", 1)[1].split("</main>", 1)[0]
    found = re.findall(r"<h[23][^>]*>(.*?)</h[23]>|<li>(.*?)</li>", body, re.DOTALL)
    rows: list[tuple[str, str, str]] = []
    about = ""
    for head, row in found:
        about = head or about
        if row:
            link = re.search(r'href="([^"]*)"', row)
            said = re.sub(r"<svg.*?</svg>", "", row, flags=re.DOTALL)
            text = " ".join(unescape(re.sub(r"<[^>]+>", " ", said)).split())
            rows.append((about, text, link.group(1) if link else ""))
    return rows


ROSTERS: Final = """team,number,name,person
Ash,4,Noor Zephirou,k-noor
Ash,7,Umaru Kealohana,k-umaru
Birch,14,Ondine Havenko,k-ondine
Birch,15,Rangi Farrowby,k-rangi
Elder,14,Ondine Havenko,k-ondine
Elder,17,Umaru Kealohana,
Cedar,4,N. Zefirou,k-noor
"""
MUCH: Final = {
    "rosters": ROSTERS,
    "crews": "game,role,official\nA1,referee,Ada Quill\nA2,referee,Noor Zephirou\n",
    "officials": "official,person\nAda Quill,\nNoor Zephirou,k-noor\n",
    "bracket": "bracket,seed,team\n,1,Ash\n,2,Birch\n",
    "rulings": "ruling,date,game,ruled,by,home_goals,away_goals,ref,why\n"
    "1,2026-09-20,A3,forfeit,away,,,H 99.9,Late.\n",
    "not_cleared": "person,since,until\nk-noor,2026-09-10,\n",
}

NOTE: Final = (
    "Games",
    (
        "note Game A1: the result counts, and is not certified yet. Look at it, then certify it: "
        "on the page of game A1, Certify the result. Certify game A1"
    ),
    f"{HERE}games/A1/certify/",
)
UNKNOWN: Final = (
    "Games",
    (
        "doubt Game A1: number 10 of Birch was shown yellow, and the roster has no such number. "
        "Compare with the scorecard, or add the player to the list of players. To game A1"
    ),
    f"{HERE}games/A1/",
)


def test_every_doubt_stands_by_its_matter_with_its_link_and_notes_stand_apart(
    tmp_path: Path,
) -> None:
    desk = a_desk(tmp_path, **MUCH)
    assert lines(desk.people["coordinator"]) == [
        (
            "Games",
            (
                'doubt The list of rulings, row 2, column ref: "H 99.9" is no article of the '
                "rulebook. Cite an article of the rulebook. To the results"
            ),
            f"{HERE}results/",
        ),
        UNKNOWN,
        (
            "Bracket",
            (
                "doubt The bracket as drawn: each division plays for a bracket named like itself, "
                "and a bracket without a name is drawn. With one bracket for all divisions, write "
                'brackets = "one" into the season\'s settings. See the bracket'
            ),
            f"{HERE}bracket/",
        ),
        (
            "Crews",
            (
                "doubt The list of crews: Noor Zephirou works game A2 and is on the roster of Ash, "
                "which plays it (H 2.1). Give the game to another official. To the nights"
            ),
            f"{HERE}nights/",
        ),
        (
            "Rosters",
            (
                "doubt The list of players, column person: Umaru Kealohana of Elder and Umaru "
                "Kealohana of Ash may be one person. If so, give both rows the same code in the "
                "column person; if not, one each. To the teams"
            ),
            f"{HERE}season/",
        ),
        NOTE,
    ]


def test_a_timetable_that_lacks_games_leads_to_where_it_is_planned_again(
    tmp_path: Path,
) -> None:
    season = a_season()
    put_season(season, a_board(tmp_path / "season"))
    (only,) = lines(member(season, "coordinator"))
    assert only == (
        "Calendar",
        (
            "doubt The timetable: The season's plan asks for 5 games of each team of pool A, and "
            "the timetable has 2. Plan again: under Calendar, Plan, repair, explain. "
            "To plan, repair, explain"
        ),
        f"{HERE}calendar/tasks/",
    )


def test_a_season_with_nothing_to_look_at_says_so_and_leads_back(tmp_path: Path) -> None:
    season = a_season()
    put_season(season, write_people(tmp_path / "season"))
    client = member(season, "coordinator")
    page = client.get(f"{HERE}doubts/", {"day": "2026-09-14"}).content.decode()
    assert lines(client, "2026-09-14") == []
    assert (
        "Nothing is to be looked at: games, calendar, rosters and crews fit together." in page
    )
    assert f'href="{HERE}today/"' in page
    today = client.get(f"{HERE}today/", {"day": "2026-09-14"}).content.decode()
    assert "Nothing in the season" in today


def test_today_counts_the_doubts_of_its_day_and_leads_to_them(tmp_path: Path) -> None:
    client = a_desk(tmp_path, **MUCH).people["coordinator"]
    pages = [
        client.get(f"{HERE}today/", {"day": "2026-10-01"}).content.decode() for _ in range(2)
    ]
    for page in pages:
        assert "5 things in the season" in page
        assert f'href="{HERE}doubts/?day=2026-10-01">Look at them</a>' in page


def test_today_counts_again_once_what_was_doubted_is_mended(tmp_path: Path) -> None:
    desk = a_desk(tmp_path)
    client, address = desk.people["coordinator"], f"{HERE}today/?day=2026-10-01"
    assert "1 thing in the season" in client.get(address).content.decode()
    rosters = desk.texts()["rosters.csv"]
    written_by(desk.season).write({"rosters.csv": rosters + b"Birch,10,Ilse Varga,k-ilse\n"})
    assert "Nothing in the season" in client.get(address).content.decode()
    assert lines(client) == [NOTE]


def test_who_reads_what_is_to_look_at_is_noted(tmp_path: Path) -> None:
    lines(a_desk(tmp_path).people["coordinator"])
    newest = AuditRow.objects.order_by("pk").last()
    assert newest is not None
    assert (newest.did, newest.what) == ("saw", "autumn: what is to look at")


@pytest.mark.parametrize(
    ("text", "lead"),
    [
        (on_pages("answer", game="A1"), Lead(f"{HERE}games/A1/questions/", "Answer")),
        (
            on_pages("award", game="A1", to="home", ref="H 3.5"),
            Lead(f"{HERE}games/A1/award/", "Rule on game A1"),
        ),
        (on_pages("look", game="A, 1"), Lead(f"{HERE}games/A,%201/", "To game A, 1")),
        (on_pages("reopen", game="A1"), Lead(f"{HERE}games/A1/reopen/", "Reopen game A1")),
        (
            on_pages("enter", game="A1"),
            Lead(f"{HERE}games/A1/scorecard/", "To the scorecard of game A1"),
        ),
        (on_pages("certify_one"), Lead(f"{HERE}results/", "To the results")),
        (on_pages("bracket"), Lead(f"{HERE}bracket/", "See the bracket")),
        (
            on_pages("resume", game="A1"),
            Lead(f"{HERE}games/A1/scorecard/", "To the scorecard of game A1"),
        ),
        (on_pages("draw_lots"), Lead(f"{HERE}lots/", "Draw lots")),
        (on_pages("begin"), Lead(f"{HERE}season/fees/", "To the fees")),
        ("Ask the captain.", Lead(f"{HERE}season/fees/", "To the fees")),
    ],
)
def test_the_end_of_a_cure_is_turned_into_the_address_that_it_names(
    text: str, lead: Lead
) -> None:
    says = Fault(
        code="fee_open", place=Place(file="fees.csv"), says="So.", cure=text, level="note"
    )
    remark = Remark(fault=says, about="Fees", named=named_in(f"Do this: {text}"), game=None)
    assert lead_of(remark, ("harrow-fen", "autumn")) == lead
