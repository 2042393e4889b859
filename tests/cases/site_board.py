"""Puts the season of three sites into a site that a test serves; run inside it by `in_site`."""

from pathlib import Path
from typing import Final

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


def told() -> list[list[str]]:
    """Return whom each occasion told, the latest first, with what became of each message."""
    from wholeball.store.models import Occasion  # noqa: PLC0415

    return [
        sorted(f"{one.who}: {one.state}" for one in occasion.messages.all())
        for occasion in Occasion.objects.order_by("-pk")
    ]
