"""The commands print a night's packet and the suspensions from a season folder.

No outside source: the stories are of an invented league with its own rules.
"""

import shutil
from pathlib import Path

import pytest

from cases.command_line import Run
from cases.nights import page_texts
from cases.people_season import enter, write_people
from wholeball.game.paper import PaperCard, PaperRed
from wholeball.game.state import Score

LEAGUE = Path(__file__).resolve().parents[1] / "examples" / "lantern-hill"
NIGHT = "2026-09-17"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    made = write_people(
        tmp_path / "meadow",
        sites="site,address,aed,shelter\nMeadow,14 Weir Lane,shed wall,boathouse\n",
        fields="field,site\nField 1,Meadow\n",
        officials="official,person\nR. Farrowby,\n",
        crews="game,role,official\nA2,referee,R. Farrowby\n",
        not_cleared="person,since,until\nk-rangi,2026-09-17,2026-09-17\n",
    )
    red = PaperRed(side="home", number=4, reason="violent conduct")
    enter(made, "A1", PaperCard(periods=(Score(1, 0), Score(0, 0)), red=(red,)))
    return made


def packet(run: Run, folder: Path, night: str = NIGHT, games: str = "2 games") -> list[str]:
    out = folder / "packet.pdf"
    told = run("sheets", "packet", folder, "--night", night, "--out", out)
    assert (told.status, told.out) == (0, f"{out}: {games}.\n")
    return page_texts(out.read_bytes())


def gates(pages: list[str]) -> dict[str, str]:
    """Return the gate list of each game by its name."""
    return {
        game: page
        for page in pages
        for game in ("A2", "C2")
        if "Gate list" in page and f"League game {game}" in page
    }


def test_a_suspended_and_a_blocked_player_see_the_supervisor_and_nobody_reads_why(
    run: Run, folder: Path
) -> None:
    pages = packet(run, folder)
    lists = gates(pages)
    birch, ash = lists["A2"].split("See the supervisor before play")[-2:]
    assert "Rangi Farrowby" in birch
    assert "Noor Zephirou" in ash
    assert "Noor Zephirou" not in lists["A2"].split("See the supervisor")[0]
    assert "N. Zefirou" in lists["C2"].split("See the supervisor")[1]
    for word in ("violent", "suspen", "cleared", "H 11"):
        assert word not in " ".join(pages)


def test_the_night_sheet_has_crews_shelter_and_address_from_the_folder(
    run: Run, folder: Path
) -> None:
    night, emergency, *_ = packet(run, folder)
    assert "Referee: R. Farrowby" in night
    assert "Shelter: boathouse" in night
    assert "14 Weir Lane" in emergency


def test_a_packet_printed_after_the_night_says_what_it_said_before(
    run: Run, folder: Path
) -> None:
    before = gates(packet(run, folder))["A2"].split("Staff only.")[0]
    enter(folder, "A2", PaperCard(periods=(Score(1, 0), Score(0, 0))), batch=2)
    assert gates(packet(run, folder))["A2"].split("Staff only.")[0] == before


def test_a_night_without_games_prints_no_packet(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "packet.pdf"
    told = run("sheets", "packet", LEAGUE, "--night", "2026-10-14", "--out", out)
    assert told.status == 1
    assert "2026-10-13, 2026-10-20" in told.err
    assert not out.exists()


def test_a_night_of_games_whose_sides_are_to_come_is_a_night_sheet(
    run: Run, folder: Path
) -> None:
    (folder / "bracket.csv").write_text("seed,team\n1,Ash\n2,Birch\n", encoding="utf-8")
    with (folder / "timetable.csv").open("a", encoding="utf-8") as file:
        file.write("P1,9,2026-11-24,19:00,Field 1,seed 1,seed 2,play_off\n")
        file.write("P2,9,2026-11-25,19:00,Field 1,winner of P1,Elder,play_off\n")
    text = (folder / "timetable.csv").read_text(encoding="utf-8")
    head, *rows = text.splitlines()
    wide = [row if row.count(",") == head.count(",") + 1 else f"{row}," for row in rows]
    (folder / "timetable.csv").write_text(
        "\n".join([f"{head},stage", *wide]) + "\n", encoding="utf-8"
    )
    pages = packet(run, folder, "2026-11-25", "1 game")
    assert "winner of P1" in pages[0]
    assert len([page for page in pages if "Gate list" in page or "Rating" in page]) == 0


def test_suspensions_are_printed_with_their_games_and_marked_for_staff(
    run: Run, folder: Path
) -> None:
    out = folder / "suspensions.pdf"
    told = run("sheets", "suspensions", folder, "--on", "2026-09-16", "--out", out)
    assert told.status == 0
    assert told.out == f"{out}: 1 held now, 4 times barred from a game. For staff only.\n"
    (page,) = page_texts(out.read_bytes())
    for says in (
        "STAFF",
        "Noor Zephirou Ash, Cedar A red in game A1 (H 11.4), everywhere",
        "No game yet 0 of 1 1 game left",
    ):
        assert says in page


def test_a_season_without_suspensions_says_so(run: Run, tmp_path: Path) -> None:
    out = tmp_path / "suspensions.pdf"
    shutil.copytree(LEAGUE, tmp_path / "league")
    told = run("sheets", "suspensions", tmp_path / "league", "--on", "2026-10-19", "--out", out)
    assert told.status == 0
    assert "Nobody is suspended." in page_texts(out.read_bytes())[0]
