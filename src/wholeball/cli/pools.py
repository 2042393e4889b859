"""Has the command that makes pools of the sign-ups."""

from collections.abc import Iterator
from typing import Annotated

import typer

from wholeball.cli.folder import Folder
from wholeball.cli.output import print_json, print_lines, print_remarks, printing_refusals
from wholeball.files.folder_record import FolderRecord
from wholeball.league.pools import USUAL
from wholeball.rulebook.sentence import counted, listed
from wholeball.usecases.make_pools import BlockMade, PoolsMade, make_pools


def add_to(app: typer.Typer) -> None:
    """Add the command to the command line."""
    app.command()(pools)


def pools(
    folder: Folder,
    size: Annotated[int, typer.Option(help="About how many teams a pool has.")] = USUAL,
    write: Annotated[
        bool, typer.Option("--write", help="Write teams.csv; pools are made once.")
    ] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="Print JSON for other programs.")
    ] = False,
) -> None:
    """Make pools of the sign-ups: who gets a place, who waits, what players alone are offered."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json, writes=write):
        made = make_pools(record, size=size, writes=write)
    print_remarks(made.remarks)
    if as_json:
        print_json(_values(made))
        return
    print_lines(_lines(made))


def _lines(made: PoolsMade) -> Iterator[str]:
    yield f"{made.league}: who plays with whom"
    for one in made.blocks:
        yield ""
        yield from _block(one)
    yield ""
    yield (
        "Nothing is written yet: add --write."
        if made.written is None
        else f"{made.written}: the teams with a place, by pool."
    )


def _block(made: BlockMade) -> Iterator[str]:
    block, found = made.block, made.placed
    window = f"{block.weekday.title()} {block.opens:%H:%M} to {block.closes:%H:%M}"
    places = f"{len(found.teams)} of {counted(block.places, 'place')} taken"
    yield f"{block.block} ({block.division}, {window}): {places}."
    for pool in found.pools:
        byes = "" if not pool.byes else "; each team has a bye"
        yield f"  Pool {pool.pool}, {counted(len(pool.teams), 'team')}{byes}:"
        yield from (f"    {one.team}" for one in pool.teams)
    if found.teams and not found.pools:
        teams = listed(tuple(one.team for one in found.teams))
        yield f"  Too few for a pool: {teams}."
    for number, one in enumerate(found.waiting, start=1):
        yield f"  Waits, {number}: {one.team} (came {one.at:%Y-%m-%d %H:%M})."
    yield from _offers(made)


def _offers(made: BlockMade) -> Iterator[str]:
    for offer in made.offers.offers:
        yield f"  {offer.player.name} is offered to {offer.team}, which is short."
    for team in made.offers.formed:
        names = listed(tuple(one.name for one in team))
        yield f"  {counted(len(team), 'player')} could make a team of their own: {names}."
        yield "    Give it a name, and a row in sign_ups.csv; take theirs out of alone.csv."
    for one in made.offers.left:
        yield f"  Nothing yet for {one.name}."


def _values(made: PoolsMade) -> dict[str, object]:
    return {
        "league": made.league,
        "blocks": [_block_values(one) for one in made.blocks],
        "written": made.written and str(made.written),
    }


def _block_values(made: BlockMade) -> dict[str, object]:
    found, offered = made.placed, made.offers
    return {
        "block": made.block.block,
        "division": made.block.division,
        "places": made.block.places,
        "pools": [
            {"pool": pool.pool, "teams": [one.team for one in pool.teams]}
            for pool in found.pools
        ],
        "placed": [one.team for one in found.teams],
        "waiting": [one.team for one in found.waiting],
        "offers": [
            {"person": one.player.person, "name": one.player.name, "team": one.team}
            for one in offered.offers
        ],
        "formed": [
            [{"person": one.person, "name": one.name} for one in team]
            for team in offered.formed
        ],
        "left": [{"person": one.person, "name": one.name} for one in offered.left],
    }
