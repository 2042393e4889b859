"""Draws brackets: writes those that are decided into bracket.csv, each once."""

import csv
from collections.abc import Iterator, Mapping, Sequence
from io import StringIO

from wholeball.files.bracket import FILE as BRACKET_FILE
from wholeball.files.folder import SeasonFolder
from wholeball.files.season_toml import FILE as SEASON_FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.league.record import LeagueRecord
from wholeball.reports.bracket_words import change_line, undecided_line
from wholeball.rulebook.sentence import listed
from wholeball.season.bracket import MOST, bracket
from wholeball.season.bracket_parts import brackets_of
from wholeball.usecases.bracket_stands import BracketStands


def draw_brackets(
    record: LeagueRecord, read: SeasonFolder, stand: Sequence[BracketStands]
) -> str:
    """Write the brackets of those that were not drawn yet, all of them or none.

    Raises:
        WholeballError: there are no play-offs, all were drawn already, bracket.csv holds
            brackets that the season does not have, or one cannot be drawn.
    """
    names = brackets_of(read.season)
    if read.season.rulebook.play_offs.qualify == "none":
        raise WholeballError(
            "The rulebook has no play-offs to draw a bracket of.",
            fix="Say who goes on in [play_offs] qualify.",
            code="no_play_offs",
        )
    if len(names) > 1:
        _refuse_others([one for one in read.brackets if one not in names])
    new = [one for one in stand if not one.drawn]
    if not new or (len(names) == 1 and read.brackets):
        raise WholeballError(
            "\n".join(_drawn_already(read, stand)),
            fix="Who rules that it is drawn again takes the file away first, and says so to all."
            if len(names) == 1
            else "Who rules that one is drawn again takes its rows away first, and says so to all.",
            code="drawn_already",
        )
    undecided = [teams for one in new for teams in one.qualified.undecided]
    if undecided:
        raise WholeballError(
            "\n".join(map(undecided_line, undecided)),
            fix=f"Draw lots, and write their order down: {record.way('draw_lots')}",
            code="undecided",
        )
    for one in new:
        _refuse_size(one)
    drawn = {**read.brackets, **{one.bracket: one.seeding.teams for one in new}}
    record.write({BRACKET_FILE: _csv(drawn)})
    return record.called(BRACKET_FILE)


def _refuse_others(others: Sequence[str]) -> None:
    if others:
        names = listed(tuple(one or "a bracket without a name" for one in others))
        raise WholeballError(
            f"{BRACKET_FILE} holds {names}, and each division plays for one named like itself.",
            fix=f'Write brackets = "one" into {SEASON_FILE}, or the divisions as their names.',
            code="other_brackets",
        )


def _refuse_size(one: BracketStands) -> None:
    """Refuse a bracket that has too few teams or too many, and say whose it is."""
    teams = len(one.seeding.teams)
    if one.bracket and not 2 <= teams <= MOST:
        raise WholeballError(
            f"{one.bracket}: a bracket of {teams} {'team' if teams == 1 else 'teams'} cannot be made.",
            fix=f"Let 2 to {MOST} teams go on, or draw the others with --division.",
            code="bracket_size",
        )
    bracket(teams, third_place=False)


def _drawn_already(read: SeasonFolder, stand: Sequence[BracketStands]) -> Iterator[str]:
    drawn = [one for one in stand if one.drawn]
    if not drawn or drawn[0].bracket:
        names = listed(tuple(one.bracket for one in drawn) or tuple(read.brackets))
        yield f"{BRACKET_FILE} holds the draw of {names} already, and a draw is made once."
    else:
        yield f"{BRACKET_FILE} holds the draw already, and a draw is made once."
    found = [change for one in drawn for change in one.changes]
    if found:
        yield "A new draw would change:"
        yield from (f"  {change_line(one)}" for one in found)
    elif drawn:
        yield "A new draw would change nothing."


def _csv(brackets: Mapping[str, Sequence[TeamId]]) -> bytes:
    text = StringIO()
    rows = csv.writer(text, lineterminator="\n")
    names = ("bracket",) if any(brackets) else ()
    rows.writerow(("seed", "team", *names))
    for name, teams in brackets.items():
        own = (name,) if names else ()
        rows.writerows((seed, team, *own) for seed, team in enumerate(teams, start=1))
    return text.getvalue().encode()
