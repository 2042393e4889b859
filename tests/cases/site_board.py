"""Puts the season of three sites into a site that a test serves; run inside it by `in_site`."""

from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from wholeball.store.models import Season

CAPTAINS: Final = ("Ash", "Birch", "Cedar", "Dogwood", "Elm", "Fir")
OFFICIALS: Final = ("Ada Quill", "Bo Tarn", "Cy Imbray")


def put_board(folder: str) -> dict[str, str]:
    """Take the season in, with captains and officials; return the sessions of two coordinators."""
    from cases.desk_season import member, put_season  # noqa: PLC0415 - after Django is set up
    from cases.stored import a_season  # noqa: PLC0415

    season = a_season("Leas")
    season.is_public = True
    season.save()
    put_season(season, Path(folder))
    for team in CAPTAINS:
        member(season, "captain", team=team, person=team)
    for official in OFFICIALS:
        member(season, "official", person=official)
    return {
        name: member(season, "coordinator", person=name).cookies["sessionid"].value
        for name in ("Kim", "Noor")
    }


def put_timetable(folder: str) -> bool:
    """Bring the season back to its folder, without a draft or a word on a night."""
    from cases.stored import texts_of, written_by  # noqa: PLC0415
    from wholeball.store.models import Draft, Season  # noqa: PLC0415

    season = Season.objects.get(slug="leas")
    Draft.objects.filter(season=season).delete()
    record = written_by(season)
    gone = [name for name in ("notices.csv", "closures.csv") if record.has(name)]
    record.write(texts_of(Path(folder)), gone=gone)
    return True


def begin_long_search() -> int:
    """Keep a search that runs and has found something, as a worker would; return its number."""
    from datetime import UTC, datetime  # noqa: PLC0415

    from wholeball.store.models import Account, Season  # noqa: PLC0415
    from wholeball.store.searches import begin_search, note_beat  # noqa: PLC0415

    season, now = Season.objects.get(slug="leas"), datetime.now(UTC)
    kim, base = Account.objects.get(name="coordinator Kim"), _timetable(season)
    asked = {"seconds": 600}
    begun = begin_search(season, kim, kind="plan", asked=asked, base=base, at=now)
    note_beat(begun.pk, now, best=7, bound=5.0, seconds=60.0, left=540.0)
    return int(begun.pk)


def end_stopped_search(number: int) -> bool:
    """End a search with the best so far, as a worker does, where somebody asked it to stop."""
    from datetime import UTC, datetime  # noqa: PLC0415

    from wholeball.store.models import Season  # noqa: PLC0415
    from wholeball.store.searches import note_end, wants_stop  # noqa: PLC0415

    is_asked = wants_stop(number)
    if is_asked:
        text = _timetable(Season.objects.get(slug="leas")).replace(",19:00,", ",20:00,")
        found = {"text": text, "total": 7, "bound": 5.0, "lines": [], "remarks": []}
        note_end(number, datetime.now(UTC), found)
    return is_asked


def _timetable(season: "Season") -> str:
    from wholeball.store.snapshot import snapshot_of  # noqa: PLC0415

    return snapshot_of(season).texts["timetable.csv"].decode()


def told() -> list[list[str]]:
    """Return whom each occasion told, the latest first, with what became of each message."""
    from wholeball.store.models import Occasion  # noqa: PLC0415

    return [
        sorted(f"{one.who}: {one.state}" for one in occasion.messages.all())
        for occasion in Occasion.objects.order_by("-pk")
    ]
