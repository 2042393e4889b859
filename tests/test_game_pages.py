"""Each game that has a log has a page among the pages of its season."""

import re
from pathlib import Path

from cases.command_line import Run
from cases.paper_cards import ordinary
from cases.paper_season import author, write_season
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.identity import GameId
from wholeball.usecases.enter_game import enter_card, game_to_enter

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
TO = "\N{EN DASH}"


def test_a_league_with_one_log_shows_that_game_from_its_entries(
    run: Run, tmp_path: Path
) -> None:
    assert run("pages", EXAMPLES / "lantern-hill", tmp_path / "out").status == 0
    index = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert '<a href="game-P1.html"><bdi>Nutmeg Theory v Candle Ends</bdi></a>' in index
    assert (
        "One game, from its entries: where it stands, its timeline, and the article for "
        "everything that follows."
    ) in index
    told = (tmp_path / "out" / "game-P1.html").read_text(encoding="utf-8")
    page = re.sub(r"<[^>]*>", "", told)
    assert f"Nutmeg Theory wins, 3{TO}2 on kicks." in page
    assert "The result is certified." in page
    assert page.count("minute not written down") >= 3
    assert [word for word in ("dissent", "reckless", "rated", "Sam") if word in page] == []


def test_a_game_whose_name_has_a_space_has_a_page_that_its_link_leads_to(
    run: Run, tmp_path: Path
) -> None:
    league = write_season(tmp_path / "meadow")
    table = league / "timetable.csv"
    table.write_text(table.read_text().replace("M1,", "M 1,").replace("M2,", "M 2,"))
    for number, name in enumerate(("M 1", "M 2"), start=1):
        card = ordinary().model_copy(update={"ratings": ()})
        enter_card(game_to_enter(FolderRecord(league), GameId(name)), card, by=author(number))
    out = tmp_path / "out"
    assert run("pages", league, out).status == 0
    index = (out / "index.html").read_text(encoding="utf-8")
    assert '<a href="game-M%201.html"><bdi>Ash v Birch</bdi></a>' in index
    assert "2 games, each from its entries: where it stands" in index
    assert (out / "game-M 1.html").is_file()


def test_a_season_without_a_log_has_no_door_to_games(run: Run, tmp_path: Path) -> None:
    league = write_season(tmp_path / "meadow")
    assert run("pages", league, tmp_path / "out").status == 0
    index = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert "from its entries" not in index
    assert list((tmp_path / "out").glob("game-*.html")) == []
