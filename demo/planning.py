"""Writes what the timetable is planned from: slots, closures, absences and planning.toml."""

from collections.abc import Iterator
from pathlib import Path

from demo import schedule
from demo.folder import table
from demo.schedule import CLOSES, OPENS, Pools
from demo.world import Size

_HEADER = ["field", "weekday", "date", "first_date", "last_date", "from", "until", "minutes"]


def write_planning(folder: Path, size: Size, pools: Pools) -> None:
    """Write where and when may be played, who cannot, and by which rules."""
    table(folder / "slots.csv", _HEADER, _slots(size))
    shut = schedule.closed(size)
    table(folder / "closures.csv", ["field", "date", "why"], [[shut.field, shut.day, shut.why]])
    table(
        folder / "absences.csv",
        ["team", "date", "from", "until", "strength", "cost", "why"],
        [
            [
                one.team,
                one.day,
                f"{one.since:%H:%M}",
                f"{one.until:%H:%M}",
                "wish" if one.cost else "must",
                one.cost or "",
                one.why,
            ]
            for one in schedule.away(pools, size)
        ],
    )
    text = "\n".join(_planning(size)) + "\n"
    (folder / "planning.toml").write_text(text, encoding="utf-8")


def _slots(size: Size) -> Iterator[list[object]]:
    window = [f"{OPENS:%H:%M}", f"{CLOSES:%H:%M}"]
    for block in size.blocks:
        nights = size.nights(block)
        for field, _ in size.fields:
            days = [nights[0], nights[-1]]
            yield [field, block.weekday, "", *days, *window, schedule.LEAGUE_MINUTES]
    for level in sorted({one.level for one in schedule.play_offs(size)}):
        for field, _ in size.fields:
            night = size.play_off_nights[level]
            yield [field, "", night, "", "", *window, schedule.PLAY_OFF_MINUTES]


def _planning(size: Size) -> Iterator[str]:
    yield "schema = 1"
    spare = ", ".join(f"{size.nights(block)[-1]}" for block in size.blocks)
    yield f"spare_nights = [{spare}]"
    for one in schedule.play_offs(size):
        yield "\n[[play_offs]]"
        yield f'game = "{one.game}"'
        yield f"round = {size.rounds + 1 + one.level}"
        yield f'home = "{one.home}"'
        yield f'away = "{one.away}"'
    yield from _rule("one game a night", "games_a_night", 'strength = "must"', "most = 1")
    wish = f'strength = "wish"\ncost = {schedule.LATE_COST}'
    yield from _rule("late games", "even_starts", wish, 'games = "league"', 'which = "late"')
    if schedule.shares_fields(size):
        wish = f'strength = "wish"\ncost = {schedule.FIELD_COST}'
        yield from _rule("fields", "even_fields", wish, 'games = "league"')


def _rule(name: str, kind: str, *lines: str) -> Iterator[str]:
    yield "\n[[rules]]"
    yield f'rule = "{name}"'
    yield f'kind = "{kind}"'
    yield from lines
