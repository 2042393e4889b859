"""Pages fit a phone and a desk in a real browser, and targets can be hit."""

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from cases.browser import CHROMIUM, measured
from cases.told_games import by_mercy, crowded, told
from wholeball.files.folder_record import FolderRecord
from wholeball.files.write import write_files
from wholeball.kernel.identity import GameId, PoolId, TeamId
from wholeball.league.league import League, Team
from wholeball.reports.game_page import game_page
from wholeball.reports.proof_page import Proof, proof_page
from wholeball.reports.shell import Link, Shell
from wholeball.reports.shipped import assets
from wholeball.reports.standings_page import PoolPages, standings_page
from wholeball.rulebook.editions import edition
from wholeball.season.result import Result
from wholeball.season.season import Season, pool_tables
from wholeball.usecases.make_pages import make_pages

ROOT = Path(__file__).resolve().parents[1]
PAGES = (
    "lantern-hill/index.html",
    "lantern-hill/standings-1-round-5.html",
    "lantern-hill/standings-2-round-5.html",
    "lantern-hill/rulebook.html",
    "lantern-hill/field.html",
    "lantern-hill/rulings.html",
    "lantern-hill/different.html",
    "proof/euro-2024/proof.html",
)

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no chromium on this machine, so no page can be looked at"
)


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("pages")
    for example in ("lantern-hill", "proof/euro-2024"):
        printed = datetime(2026, 10, 14, tzinfo=UTC)
        make_pages(FolderRecord(ROOT / "examples" / example), out / example, printed=printed)
    return out


@pytest.fixture(scope="module")
def long_names(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Lay out a pool of two teams with forty letters each and nowhere to break."""
    first, second, pool = TeamId("W" * 40), TeamId("M" * 40), PoolId("P" * 40)
    season = Season(
        league=League(
            name="L" * 80,
            timezone="America/Chicago",
            first_day=date(2026, 9, 1),
            last_day=date(2026, 12, 1),
            teams=(Team(team=first, pool=pool), Team(team=second, pool=pool)),
        ),
        rulebook=edition("laws-2025-26"),
        results=(Result(game=GameId("G" * 40), round=1, home=first, away=second),),
        source="S" * 120,
    )
    tables = pool_tables(season, pool)
    shell = Shell(
        links=(Link(label="Standings", href="standings.html"),),
        rulebook="R" * 120,
        digest=season.rulebook.digest,
        printed=datetime(2026, 10, 14, tzinfo=UTC),
    )
    told = PoolPages(
        season=season, pool=pool, tables=tables, hrefs={1: "standings.html"}, under=""
    )
    proof = Proof(title="T" * 90, source="S" * 120, computed=tables[0].standings, published=())
    out = tmp_path_factory.mktemp("long")
    pages = {
        "standings.html": standings_page(told, shown=1, shell=shell).encode(),
        "proof.html": proof_page((proof,), shell=shell, here="proof.html").encode(),
    }
    write_files(out, {**pages, **assets()})
    return out


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("page", PAGES)
def test_a_page_fits_its_width_and_every_target_is_44_high(
    pages: Path, page: str, width: int
) -> None:
    assert measured(pages / page, width) == {"over": 0, "small": []}


@pytest.fixture(scope="module")
def games(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Lay out a crowded game, one that mercy ended, and one with forty letters a name."""
    shell = Shell(
        links=(Link(label="Game", href="crowded.html"),),
        rulebook="R" * 120,
        digest="0" * 64,
        printed=datetime(2026, 10, 14, tzinfo=UTC),
    )
    out = tmp_path_factory.mktemp("games")
    shown = {
        "crowded.html": told(crowded()),
        "mercy.html": told(by_mercy()),
        "long.html": told(by_mercy(), home="W" * 40, away="M" * 40),
    }
    pages = {
        name: game_page(game, shell=shell, here=name).encode() for name, game in shown.items()
    }
    write_files(out, {**pages, **assets()})
    return out


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("page", ["crowded.html", "mercy.html", "long.html"])
def test_the_page_of_a_game_fits(games: Path, page: str, width: int) -> None:
    assert measured(games / page, width) == {"over": 0, "small": []}


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("page", ["standings.html", "proof.html"])
def test_names_without_a_place_to_break_still_fit(
    long_names: Path, page: str, width: int
) -> None:
    assert measured(long_names / page, width) == {"over": 0, "small": []}
