"""Makes a public season in the database, from the example and what the noticeboard adds to it."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from cases.site_people import PASSWORD
from cases.stored import a_season, texts_of, written_by
from wholeball.store.models import Account, Membership, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.kept_pages import board_of
from wholeball.usecases.show_noticeboard import Around, Board

EXAMPLE: Final = Path(__file__).resolve().parents[2] / "examples" / "lantern-hill"
ROOT: Final = "/harrow-fen/autumn/"
AROUND: Final = Around(root=ROOT, styles=("/static/pages/wholeball.css",), own="/me/")
SITES: Final = "site\nNorth\nSouth\n"
FIELDS: Final = "field,site\nLower Meadow 1,North\nLower Meadow 2,South\n"
OFFICIALS: Final = "official\nTova Quillmere\n"
CREWS: Final = "game,role,official\nW51,lead,Tova Quillmere\nF53,lead,Tova Quillmere\n"
ROSTERS: Final = """team,number,name,captain,person,id_end
Library Fines,7,Adaeze Abernwy,yes,k-adaeze,042
Library Fines,10,Hoku Lindqvar,,k-hoku,117
Library Fines,4,Ondine Whitlomoana,,k-ondine,
Peer Reviewers,9,Vashti Havenko,yes,k-vashti,
"""
DISCIPLINE: Final = (
    "ruling,date,person,game,ruled,games,until,ref,why\n"
    "1,2026-10-14,k-hoku,W53,games,2,,H 11.4,Said something to the crew.\n"
    "2,2026-10-14,k-vashti,F53,games,3,,H 11.4,Something else.\n"
)
TEAM: Final = "Library Fines"
PAGES: Final[dict[str, tuple[object, ...]]] = {
    "front": (),
    "tables": (),
    "table": (1,),
    "table_after": (1, 1),
    "calendar": (),
    "week": (1,),
    "night": ("2026-10-13",),
    "team": (TEAM,),
    "field": ("Lower Meadow 1",),
    "bracket": (1,),
    "draws": (),
    "results": (),
    "results_after": (1,),
    "game": ("P1",),
    "rules": (),
    "chapter": (1,),
    "ground": (),
}
"""The pages that the season has, each with what it is of."""
NOTICES: Final = "date,site,field,state,next_word,says\n"


def public_season(*, name: str = "Autumn", **files: str) -> Season:
    """Make the season public, with some of its files otherwise: `rosters_csv` is rosters.csv."""
    season = a_season(name)
    season.is_public = True
    season.save()
    contents = {
        **texts_of(EXAMPLE),
        "sites.csv": SITES.encode(),
        "fields.csv": FIELDS.encode(),
        "officials.csv": OFFICIALS.encode(),
        "crews.csv": CREWS.encode(),
        "rosters.csv": ROSTERS.encode(),
        **{_name(key): text.encode() for key, text in files.items()},
    }
    written_by(season).write(contents)
    return Season.objects.get(pk=season.pk)


def still_to_play(night: str) -> str:
    """Return the results of the example without those of a night."""
    rows = (EXAMPLE / "results.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    return "".join(row for row in rows if f",{night}," not in row)


def change(season: Season, **files: str) -> None:
    """Write files of a season otherwise."""
    written_by(season).write({_name(key): text.encode() for key, text in files.items()})


def text(season: Season, name: str) -> str:
    """Return a file of a season as it is now."""
    return written_by(season).read(name, 1_000_000).decode()


def board(season: Season, now: str = "2026-10-13T12:00") -> Board:
    """Return the season to be shown at a time of UTC."""
    at = datetime.fromisoformat(now).replace(tzinfo=UTC)
    return board_of(snapshot_of(season), AROUND, at)


def seat(
    account: Account, season: Season, role: str, *, team: str = "", person: str = ""
) -> None:
    """Give an account a role in a season."""
    Membership.objects.create(
        organisation=season.organisation,
        account=account,
        season=season,
        role=role,
        team=team,
        person=person,
    )


def put_season(*, name: str = "Autumn", email: str = "", payload: str = "") -> int:
    """Make the season in a site that is served; somebody may be its captain and official.

    A payload takes the place of a team, a player and a note.
    """
    season = public_season(name=name, discipline_csv=DISCIPLINE)
    if payload:
        quoted = '"' + payload.replace('"', '""') + '"'
        for file in ("teams.csv", "timetable.csv", "results.csv"):
            changed = text(season, file).replace("Library Fines", quoted)
            change(season, **{file.replace(".", "_"): changed})
        rosters = f"team,number,name\n{quoted},7,{quoted}\n"
        change(season, discipline_csv=DISCIPLINE[: DISCIPLINE.index("1")], rosters_csv=rosters)
    if email:
        account = Account.objects.create_user(email, PASSWORD)
        seat(account, season, "captain", team="Library Fines", person="k-hoku")
        seat(account, season, "official", person="Tova Quillmere")
    return int(season.pk)


def _name(key: str) -> str:
    stem, _, ending = key.rpartition("_")
    return f"{stem}.{ending}"
