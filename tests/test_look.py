"""The demonstration's pages fit a phone and a desk in a real browser, and targets can be hit."""

import json
import re
import shutil
import subprocess
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from cases.told_games import by_mercy, crowded, told
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
from wholeball.usecases.make_pages import make_demo

ROOT = Path(__file__).resolve().parents[1]
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
PAGES = (
    "index.html",
    "standings-1-round-5.html",
    "standings-2-round-5.html",
    "proof.html",
    "rulebook.html",
    "field.html",
    "rulings.html",
    "different.html",
)
MEASURE = """<script>
addEventListener("load", () => {
  const small = [...document.querySelectorAll("a:not(.skip), summary")]
    .filter((one) => one.offsetParent !== null)
    .filter((one) => one.getBoundingClientRect().height < 43.5)
    .map((one) => one.textContent.trim());
  document.title = JSON.stringify({
    over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    small,
  });
});
</script>"""

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no chromium on this machine, so no page can be looked at"
)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("demo") / "out"
    make_demo(ROOT / "examples", out, printed=datetime(2026, 10, 14, tzinfo=UTC))
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
    demo: Path, page: str, width: int
) -> None:
    assert _measured(demo / page, width) == {"over": 0, "small": []}


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
    assert _measured(games / page, width) == {"over": 0, "small": []}


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("page", ["standings.html", "proof.html"])
def test_names_without_a_place_to_break_still_fit(
    long_names: Path, page: str, width: int
) -> None:
    assert _measured(long_names / page, width) == {"over": 0, "small": []}


def _measured(page: Path, width: int) -> object:
    """Load a copy of the page in a frame of the width asked for and read what it measured."""
    inner = page.with_name(f"measured-{page.name}")
    inner.write_text(page.read_text().replace("</body>", f"{MEASURE}</body>"))
    outer = page.with_name(f"frame-{width}-{page.name}")
    outer.write_text(
        f'<!doctype html><title>x</title><iframe src="{inner.name}" width="{width}" height="900">'
        "</iframe><script>onload = () => { document.title = "
        "document.querySelector('iframe').contentDocument.title; };</script>"
    )
    dumped = subprocess.run(  # noqa: S603 - the browser of this machine on a page of ours
        [
            str(CHROMIUM),
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-first-run",
            "--disable-background-networking",
            "--allow-file-access-from-files",
            f"--user-data-dir={page.parent / 'profile'}",
            "--window-size=1400,1000",
            "--virtual-time-budget=5000",
            "--dump-dom",
            outer.as_uri(),
        ],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    title = re.search(r"<title>(.*?)</title>", dumped)
    assert title is not None
    return json.loads(title[1])
