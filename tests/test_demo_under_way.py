"""The season under way of the demonstration ends before today, with the newest night half done."""

import re
from datetime import date, timedelta
from pathlib import Path

import pytest
from demo.desk import id_key
from demo.truth import truth_of
from demo.under_way import UnderWay, size_on
from demo.world import SMALL

SUNDAY = date(2027, 3, 14)
"""The clocks of the league change in the night before (common practice, no source)."""


@pytest.mark.parametrize("day", range(8))
def test_on_any_day_rain_is_past_a_night_was_played_since_and_nights_are_to_come(
    day: int,
) -> None:
    today = SUNDAY + timedelta(days=day)
    size = size_on(today)
    nights = sorted(night for block in size.blocks for night in size.nights(block)[:-1])
    since = [night for night in nights if size.rained_off < night < today]
    assert [night.strftime("%A") for night in since] == ["Tuesday", "Thursday"][: len(since)]
    assert 1 <= (today - since[0]).days <= 7
    assert len([night for night in nights if night >= today]) >= 2
    assert size.title == f"Quillmere, {size.first_night:%B %Y}"


def test_what_lies_before_today_came_out_and_the_newest_night_waits(tmp_path: Path) -> None:
    today = SUNDAY + timedelta(days=3)
    with id_key():
        course = UnderWay(
            truth=truth_of(size_on(today, SMALL), 2),
            folder=tmp_path / "season",
            sheets=tmp_path / "sheets",
            tell=lambda _: None,
            today=today,
        )
        course.play()
        told = course.desk.run("results", course.folder, "--json").json()
        doubts = course.desk.run("check", course.folder).out
    assert [str(one) for one in course.ledger.differences] == []
    assert course.ledger.facts > 100
    listed = {one.game: one.day for one in course.truth.league}
    entered, missing = [
        game for game, day in listed.items() if day == today - timedelta(days=1)
    ]
    known = {one["game"] for one in told["results"]}
    assert known == {game for game, day in listed.items() if day < today} - {missing}
    assert re.findall(
        r"games/(\S+)\.jsonl: the result counts, and is not certified", doubts
    ) == [entered]
