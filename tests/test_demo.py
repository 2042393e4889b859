"""The demonstration's truth is its own, and a difference from it is named and fails."""

import ast
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time
from pathlib import Path
from random import Random
from shutil import copytree

import pytest
from demo import checks, truth_play_offs
from demo.__main__ import SEED, told
from demo.account import Kicked
from demo.checks import Checks
from demo.course import Course
from demo.desk import Desk, id_key
from demo.house import HOUSE
from demo.ledger import Ledger
from demo.logs import Noted, phones
from demo.planner import Planner
from demo.schedule import away
from demo.showcase import front_pages
from demo.simulate import winner_of_kicks
from demo.start import start
from demo.timetable import cost, facts, place, read_timetable
from demo.truth import play, take, take_again, truth_of
from demo.truth_tables import Counted, Figures, Outcome, counted, table
from demo.world import FULL, SIDES, SMALL, Listed, Person

from cases.browser import CHROMIUM, measured
from cases.demo_course import played_in
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append
from wholeball.game import happenings as was
from wholeball.game.event import Moment

PACKAGE = Path(checks.__file__).parent
EXAMPLES = PACKAGE.parent / "examples"
WITH_WHOLEBALL = {"course", "desk", "finals", "logs", "showcase", "site", "site_rows"}
"""The modules that write what programs write, type commands, serve, or read what they wrote."""


@pytest.fixture(scope="module")
def played(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Course]:
    place = tmp_path_factory.mktemp("demo")
    with id_key():
        yield played_in(place)


def test_what_says_how_the_season_came_out_imports_nothing_of_wholeball() -> None:
    importing = {
        path.stem
        for path in PACKAGE.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if "wholeball" in _imported(node)
    }
    assert importing - {"__main__"} == WITH_WHOLEBALL
    own = {path.stem for path in PACKAGE.glob("*.py")} - WITH_WHOLEBALL - {"__main__"}
    for name in own & {
        "truth",
        "truth_fees",
        "truth_people",
        "truth_play_offs",
        "truth_tables",
    }:
        tree = ast.parse((PACKAGE / f"{name}.py").read_text(encoding="utf-8"))
        modules = {module for node in ast.walk(tree) for module in _modules(node)}
        assert not {f"demo.{one}" for one in WITH_WHOLEBALL} & modules


def test_a_small_season_comes_out_as_it_truly_was(played: Course) -> None:
    assert [str(one) for one in played.ledger.differences] == []
    kinds = {one.kind for one in played.ledger.all}
    assert kinds >= {
        "pools",
        "timetable",
        "rosters",
        "results",
        "tables",
        "suspensions",
        "bracket",
        "people",
    }
    assert played.ledger.facts > 200
    assert played.due == []


def test_a_goal_added_to_a_log_is_named_by_game_table_and_team(
    played: Course, tmp_path: Path
) -> None:
    folder = copytree(played.folder, tmp_path / "season")
    desk, ledger = Desk(), Ledger()
    game = played.truth.names["A2-1"]
    desk.run("reopen", folder, game, "--by", "Somebody", "--reason", "I like the home side.")
    account = played.truth.accounts[game]
    pair = phones(account, played.rulebook, Random(1), again=True)
    goal = pair.note(Noted(0, Moment(2, 1_003), was.Goal(side="home")))
    append(FolderRecord(folder), game, [goal])
    desk.run("certify", folder, game, "--by", "Somebody")
    again = Checks(played.truth, folder, desk, ledger)
    again.results()
    again.all_tables()
    named = [one.what for one in ledger.differences]
    assert named[0] == f"result of {game}"
    home, away = account.home, account.away
    pool = account.listed.pool
    assert {f"{pool}, round 2, {home}", f"{pool}, round 3, {away}"} <= set(named)
    assert not any("round 1" in one for one in named)
    assert str(ledger.differences[0]).splitlines()[1:] == [
        f"    expected  {ledger.differences[0].expected}",
        f"    came      {ledger.differences[0].came}",
    ]


def test_a_difference_ends_the_demonstration_with_status_1(
    played: Course, capsys: pytest.CaptureFixture[str]
) -> None:
    course = Course(
        truth=played.truth, folder=played.folder, sheets=played.sheets, tell=lambda _: None
    )
    course.ledger.compare("fees", "what Q owes", expected=25, came=25)
    assert told(course, Path("out/index.html"), 1.0) == 0
    course.ledger.compare("fees", "what the Foxes owe", expected=25, came=0)
    assert told(course, Path("out/index.html"), 1.0) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[1:4] == ["what the Foxes owe", "    expected  25", "    came      0"]
    assert lines[4].startswith("2 facts compared, 1 differences")


@pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine")
def test_the_front_page_leads_to_the_games_of_the_story_and_fits(
    played: Course, tmp_path: Path
) -> None:
    page = front_pages(played, tmp_path, EXAMPLES, printed=datetime(2026, 10, 24, tzinfo=UTC))
    told = page.read_text(encoding="utf-8")
    assert f"{played.ledger.facts} facts were compared" in told
    assert "none came out otherwise" in told
    for game in played.truth.plot.kinds:
        assert f'href="season/game-{game}.html"' in told
    assert "(staff)" in told
    assert "no better plan exists" in told
    assert (
        "Thursday 17 September 2026 was lost to rain before it was played. Its 2 games moved to "
        "Thursday 1 October 2026; fewer could not move, and no other did."
    ) in told
    for team in ("Tuesday Regrets", "Found Objects", "Foxes 🦊 United", "Second Breakfast"):
        assert f"<li><b><bdi>{team}</bdi></b> <bdi>Game " in told
    compared = tmp_path / "compared.html"
    assert "Different</th>" in compared.read_text(encoding="utf-8")
    for one in (page, compared):
        for width in (390, 1280):
            assert measured(one, width) == {"over": 0, "small": []}


def test_a_fact_that_only_one_side_has_differs() -> None:
    ledger = Ledger()
    ledger.compare_all("fees", {"a": 1, "b": 2}, {"b": 2, "c": 3})
    assert [(one.what, one.expected, one.came) for one in ledger.differences] == [
        ("a", 1, "nothing"),
        ("c", "nothing", 3),
    ]
    with pytest.raises(ValueError, match="no kind of fact"):
        ledger.compare("money", "x", expected=1, came=1)


def test_the_full_season_is_as_large_and_as_eventful_as_it_says(tmp_path: Path) -> None:
    truth, again = truth_of(FULL, SEED), truth_of(FULL, SEED)
    folder, desk, ledger = tmp_path / "season", Desk(), Ledger()
    with id_key():
        start(truth, folder, desk, ledger, lambda _: None)
        take(again, read_timetable(folder / "timetable.csv", again.pools))
        rain = Planner(truth, folder, desk, ledger).lose(FULL.rained_off)
    assert [str(one) for one in ledger.differences] == []
    assert (rain.games, len(rain.by_team)) == (6, 12)
    take_again(again, read_timetable(folder / "timetable.csv", again.pools))
    play(again, before=FULL.rained_off)
    play(again)
    play(truth)
    teams = truth.teams
    assert (len(teams), len(truth.pools)) == (24, 4)
    assert sum(len(one.players) for one in teams.values()) == FULL.players == 400
    assert len(truth.invented.officials) == 24
    assert set(truth.plot.kinds) <= {one.game for one in (*truth.league, *truth.play_offs)}
    assert truth.goes_on.too_rude == [truth.pools["Thursday A"][0]]
    assert truth.goes_on.seeds != truth.goes_on.by_record
    assert any(one.needs_meeting and one.meeting is None for one in truth.bans.bans)
    assert again.champion == truth.champion
    tutorial = (EXAMPLES.parent / "docs" / "tutorial" / "season-in-an-hour.md").read_text()
    named = re.findall(r"^    wholeball game quillmere (\S+)$", tutorial, flags=re.MULTILINE)
    assert [truth.plot.kind(game) for game in named] == ["usual", "thunder", "late_goal"]
    assert f"--night {truth.league[-1].day} " in tutorial
    assert f"--lost-night {FULL.rained_off} " in tutorial


def test_a_story_stays_with_its_game_when_the_rain_moves_it(played: Course) -> None:
    truth = played.truth
    game = truth.names["B2-2"]
    account = truth.accounts[game]
    assert (truth.plot.kind(game), account.listed.round) == ("late_goal", SMALL.rounds + 1)
    assert account.listed.day == SMALL.nights(SMALL.blocks[1])[-1]
    assert list(truth.accounts) == sorted(
        truth.accounts, key=lambda one: place(truth.accounts[one].listed)[:2]
    )


def test_what_a_timetable_must_keep_is_named_where_it_does_not(played: Course) -> None:
    truth, lost = played.truth, SMALL.rained_off
    games = [*truth.league, *truth.play_offs]
    assert _broken(games, played, lost) == []
    first, second = games[:2]
    at_once = replace(first, day=second.day, start=second.start, field=second.field)
    assert _broken([at_once, *games[1:]], played, lost) == ["games at one place"]
    rained = replace(first, day=lost)
    assert _broken([rained, *games[1:]], played, lost) == [
        f"game {first.game} has a place of its block"
    ]
    again = replace(first, day=games[4].day)
    assert f"nights of {first.home}" in _broken([again, *games[1:]], played, lost)
    other_pair = replace(first, home=second.home)
    assert f"pairs of {first.pool}" in _broken([other_pair, *games[1:]], played, lost)
    turned = replace(truth.play_offs[0], opens=("seed 3", "seed 2"))
    assert _broken([*truth.league, turned, *truth.play_offs[1:]], played, lost) == [
        f"game {turned.game} before its sides are known"
    ]


def test_a_team_is_away_up_to_the_minute_at_which_its_game_starts(played: Course) -> None:
    truth = played.truth
    gone = away(truth.pools, SMALL)[0]
    game = next(one for one in truth.league if gone.team in one.sides() and one.day == gone.day)
    what = f"{gone.team} is spared on {gone.day}"
    for start_, expected in ((time(18, 30), [what]), (time(19, 30), [])):
        moved = replace(game, start=start_, field="Field 1")
        games = [moved if one is game else one for one in truth.league]
        broken = _broken([*games, *truth.play_offs], played, SMALL.rained_off)
        assert [one for one in broken if one.startswith(gone.team)] == expected


def test_a_late_game_beyond_a_teams_share_costs_what_the_rule_says(played: Course) -> None:
    """Three games at three starts a night: one late game is the share, the second costs 5."""
    truth = played.truth
    early = [replace(one, start=time(18, 30)) for one in truth.league]
    wish = cost(early, truth.pools, SMALL)
    team = truth.pools["Tuesday"][0]
    mine = [index for index, one in enumerate(early) if team in one.sides()]
    for late, more in ((1, 0), (2, 5), (3, 10)):
        games = list(early)
        for index in mine[:late]:
            games[index] = replace(games[index], start=time(20, 30))
        assert cost(games, truth.pools, SMALL) - wish == more


def _broken(games: list[Listed], played: Course, lost: date) -> list[str]:
    told_ = facts(games, played.truth.pools, SMALL, lost)
    return [what for what, expected, came in told_ if expected != came]


def test_the_truths_table_parts_level_teams_by_the_games_among_them() -> None:
    """Worked by hand: a, b and c beat each other in a circle; their differences are +2, 0, -2.

    Over all games c has the best difference, which is asked later.
    """
    games = [
        _game("a", "b", 3, 0),
        _game("b", "c", 1, 0),
        _game("c", "a", 1, 0),
        _game("a", "d", 1, 0),
        _game("b", "d", 1, 0),
        _game("c", "d", 9, 0),
    ]
    found = Counted(games, ())
    assert [(one.place, one.team, one.points) for one in table("abcd", found, HOUSE)] == [
        (1, "a", 6),
        (2, "c", 6),
        (3, "b", 6),
        (4, "d", 0),
    ]
    assert Figures(found, HOUSE).ordered("abcd", mini=False)[0] == ["c"]


def test_the_third_forfeit_annuls_a_teams_games_and_the_second_does_not() -> None:
    games = [_game("a", "b", 2, 0)] + [_forfeit(number) for number in (2, 3, 4)]
    assert counted(games, HOUSE, up_to=3).out == ()
    after = counted(games, HOUSE, up_to=4)
    assert after.out == ("b",)
    assert [one.how for one in after.games] == ["annulled"] * 4


def test_teams_of_one_pool_are_kept_apart_by_the_smallest_change() -> None:
    pools = {"a": "A", "b": "B", "c": "B", "d": "A"}
    assert truth_play_offs.kept_apart("abcd", pools) == ["a", "b", "d", "c"]
    assert truth_play_offs.kept_apart("abdc", pools) == ["a", "b", "d", "c"]


def test_kicks_end_as_soon_as_a_side_cannot_catch_up() -> None:
    """Law 10 (IFAB): best of the kicks, then pair by pair until one pair parts them."""
    assert _winner("oxo") is None
    assert _winner("oxox") == "home"
    assert _winner("oooooo") is None
    assert _winner("ooooooo") is None
    assert _winner("oooooox" + "o") == "away"


def _winner(kicks: str) -> str | None:
    by = Person(student="1", name="Ana", number=1)
    taken = [
        Kicked(side=SIDES[index % 2], by=by, scored=one == "o")
        for index, one in enumerate(kicks)
    ]
    return winner_of_kicks(taken, 3)


def _game(home: str, away: str, home_goals: int, away_goals: int) -> Outcome:
    return Outcome(
        game=f"{home}{away}",
        round=1,
        pool="P",
        home=home,
        away=away,
        how="played",
        since=date(2026, 9, 8),
        goals=(home_goals, away_goals),
        was_played=True,
    )


def _forfeit(number: int) -> Outcome:
    return Outcome(
        game=f"f{number}",
        round=number,
        pool="P",
        home="a",
        away="b",
        how="forfeit",
        since=date(2026, 9, 8),
        by="away",
    )


def _imported(node: ast.AST) -> set[str]:
    return {module.partition(".")[0] for module in _modules(node)}


def _modules(node: ast.AST) -> set[str]:
    if isinstance(node, ast.ImportFrom) and node.module:
        return {node.module, *(f"{node.module}.{one.name}" for one in node.names)}
    return {one.name for one in node.names} if isinstance(node, ast.Import) else set()
