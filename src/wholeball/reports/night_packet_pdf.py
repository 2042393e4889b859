"""Prints the packet of a night as one tagged PDF, from the night sheet to the rating stubs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from typing import Any, Final

from wholeball.kernel.identity import PersonId
from wholeball.league.player import Player
from wholeball.reports import night_words as words
from wholeball.reports.dates import day
from wholeball.reports.night import GateList, Night, NightGame, NightSide, NightSite
from wholeball.reports.roster_lines import FIGURE_SPACE, GAP, breakable, is_foreign, lines_of
from wholeball.reports.scorecards import BIBS, rating_slip
from wholeball.reports.scorecards_pdf import PARTS, STAGES, card_values
from wholeball.reports.typeset import Paper, typeset
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import counted
from wholeball.season.eligibility import GateLine


@dataclass(frozen=True, slots=True)
class Size:
    """What a page holds, in millimetres: lines of a gate list, and half a page for a stub."""

    lines: float
    stub: float


SIZES: Final[dict[Paper, Size]] = {
    "a4": Size(231.0, 136.0),
    "us-letter": Size(213.0, 127.0),
}
LEAST_PITCH: Final = 6.4
MOST_PITCH: Final = 10.0
"""Millimetres from line to line of a gate list; one that needs less goes over pages."""
HEAD_LINES: Final = 2
SPARE: Final = 30.0
"""Millimetres that a pair of lists leaves free where it is not made to go over pages."""
TOGETHER: Final = 10
"""Lines that stay on one page of a gate list that may go over pages."""
LINES_TO_WRITE: Final = 14
"""Empty lines where a team has no roster."""
NUMBER_DIGITS: Final = 2
ID_DIGITS: Final = 3
_NOBODY: Final = GateLine(player=Player(name=""), person=PersonId(""), reasons=())
NAME_LETTERS: Final = 25
ABREAST: Final = 4
"""Fields beside each other on one page of checks."""
RATERS: Final = 2
_BESIDE: Final = "scorekeeper"


def night_packet_pdf(night: Night, book: Rulebook, *, printed: datetime, paper: Paper) -> bytes:
    """Return the packet of a night with one game or more as PDF/UA-1.

    Letters that the fonts lack are printed as code points.

    Args:
        night: what is printed.
        book: the rulebook.
        printed: local time.
        paper: A4 or US Letter.
    """
    data = {
        "title": f"{night.league}, {day(night.day)}",
        "paper": paper,
        "date": list(printed.timetuple()[:6]),
        "foot": f"Printed {printed:%Y-%m-%d %H:%M}.",
        **_sheet(night),
        **_emergency(night.sites),
        **_checks(night.sites),
        **_gates(night.gates, SIZES[paper]),
        "cards": None,
        **_stubs(night, book, SIZES[paper]),
    }
    if night.cards:
        data["cards"] = card_values(night.cards, book, printed=printed, paper=paper)
    return typeset(
        "night_packet.typ", data, parts=(PARTS, "night_sheets.typ", "gate_parts.typ")
    )


def _sheet(night: Night) -> dict[str, Any]:
    first, last = night.games[0].start, night.games[-1].start
    sites = [one.site.site if one.site else "site not written down" for one in night.sites]
    starts = f"{first:%H:%M}" if first == last else f"{first:%H:%M} to {last:%H:%M}"
    return {
        "day": day(night.day),
        "league": night.league,
        "lead": f"{_how_many(night.games)}, starts {starts}. {', '.join(sites)}.",
        "weather": words.WEATHER,
        "policy": words.POLICY_FIRST,
        "shelters": [_shelter(one, is_alone=len(night.sites) == 1) for one in night.sites],
        "games": [_game(one) for one in night.games],
    }


def _how_many(games: Sequence[NightGame]) -> str:
    off = sum(one.is_off for one in games)
    says = counted(len(games), "game")
    return f"{says}, {len(games) - off} on and {off} off" if off else says


def _shelter(one: NightSite, *, is_alone: bool) -> tuple[str, str]:
    if one.site is None:
        return (f"Shelter ({', '.join(one.fields)})", "")
    label = "Shelter" if is_alone else f"Shelter, {breakable(one.site.site)}"
    return (label, breakable(one.site.shelter))


def _game(one: NightGame) -> dict[str, Any]:
    return {
        "start": f"{one.start:%H:%M}",
        "field": one.field,
        "home": _night_side(one.home, is_open=one.is_open),
        "away": _night_side(one.away, is_open=one.is_open),
        "clash": _clash(one),
        "game": one.game if one.stage == "league" else f"{STAGES[one.stage]} {one.game}",
        "note": _note(one),
        "off": one.is_off,
        "crew": [(words.role_word(role), breakable(name)) for role, name in one.crew],
    }


def _note(one: NightGame) -> str:
    if one.is_off:
        return words.OFF_GAME
    return words.OPEN_GAME if one.is_open else ""


def _night_side(one: NightSide, *, is_open: bool) -> dict[str, Any]:
    return {"name": breakable(one.name), "colours": None if is_open else one.colours}


def _clash(one: NightGame) -> str:
    if not one.clash:
        return ""
    cure = "bibs for one side" if one.away.colours == BIBS else f"away in {one.away.colours}"
    return f"both {one.clash}: {cure}"


def _emergency(sites: Sequence[NightSite]) -> dict[str, Any]:
    return {
        "sites": [
            {
                "name": _name(one),
                "fields": f"Tonight: {', '.join(one.fields)}",
                "lines": [
                    (label, breakable(text)) for label, text in words.site_lines(one.site)
                ],
            }
            for one in sites
        ],
        "emergency": {
            "first": words.CALL_FIRST,
            "number": words.EMERGENCY_NUMBER,
            "blank": words.NOT_WRITTEN,
            "policy": words.POLICY_FIRST,
        },
    }


def _name(one: NightSite) -> str:
    return f"Site: {words.NOT_WRITTEN}" if one.site is None else breakable(one.site.site)


def _checks(sites: Sequence[NightSite]) -> dict[str, Any]:
    return {
        "checks": [
            {"name": _name(one), "fields": one.fields[at : at + ABREAST]}
            for one in sites
            for at in range(0, len(one.fields), ABREAST)
        ],
        "check-words": {
            "items": words.CHECKS,
            "moved": words.MOVED,
            "not-in-order": words.NOT_IN_ORDER,
            "policy": words.POLICY_FIRST,
        },
    }


def _gates(gates: Sequence[GateList], size: Size) -> dict[str, Any]:
    """Return the lists field by field, in the order in which the fields are first played on."""
    order = {one.game.field: nth for nth, one in reversed([*enumerate(gates)])}
    by_field = sorted(gates, key=lambda one: order[one.game.field])
    return {
        "gates": [
            [_gate(one, size) for one in some]
            for _, some in groupby(by_field, key=lambda one: one.game.field)
        ],
        "gate-words": {
            "number": words.GIVE_NUMBER,
            "no-roster": words.NO_ROSTER,
            "see-supervisor": words.SEE_SUPERVISOR,
            "blanks": [_group([_NOBODY] * (LINES_TO_WRITE // 2), is_tall=False)] * 2,
        },
    }


def _gate(one: GateList, size: Size) -> dict[str, Any]:
    lines = max(_high(one.home), _high(one.away))
    pitch = min(max(size.lines / lines, LEAST_PITCH), MOST_PITCH)
    is_short = _is_short(one, lines * pitch, size)
    together = lines if is_short else TOGETHER
    return {
        "start": f"{one.game.start:%H:%M}",
        "field": one.game.field,
        "game": f"{STAGES[one.game.stage]} {one.game.game}",
        "pitch": pitch,
        "is-short": is_short,
        "sides": [
            _side(one.game.home.name, one.home, together),
            _side(one.game.away.name, one.away, together),
        ],
    }


def _is_short(one: GateList, high: float, size: Size) -> bool:
    """Tell whether lists surely fit on one page, however their notes and names are set."""
    teams = (one.game.home.name, one.game.away.name)
    return high + SPARE <= size.lines and all(lines_of(it, NAME_LETTERS) <= 2 for it in teams)


def _high(some: Sequence[GateLine]) -> int:
    named = sum(lines_of(_named(one), NAME_LETTERS) for one in some)
    return max(named, 1) + HEAD_LINES


def _side(team: str, some: Sequence[GateLine], together: int) -> dict[str, Any]:
    return {
        "team": breakable(team),
        "players": list(_groups([one for one in some if not one.is_blocked], together)),
        "stopped": list(_groups([one for one in some if one.is_blocked], together)),
    }


def _groups(some: Sequence[GateLine], together: int) -> Iterator[dict[str, Any]]:
    """Return neighbours of one line each together, up to so many, and those that may wrap alone."""
    for is_tall, neighbours in groupby(some, key=_is_tall):
        lines = list(neighbours)
        step = 1 if is_tall else together
        for at in range(0, len(lines), step):
            yield _group(lines[at : at + step], is_tall=is_tall)


def _group(lines: Sequence[GateLine], *, is_tall: bool) -> dict[str, Any]:
    return {
        "tall": is_tall,
        "texts": [_prefixed(one.player, _named(one)) for one in lines],
    }


def _is_tall(one: GateLine) -> bool:
    name = _named(one)
    return is_foreign(name) or lines_of(name, NAME_LETTERS) > 1


def _prefixed(player: Player, name: str) -> str:
    """Put number and last digits, each of one width, before a name."""
    number = "" if player.number is None else str(player.number)
    return (
        f"{number:{FIGURE_SPACE}<{NUMBER_DIGITS}}{GAP}"
        f"{player.id_end:{FIGURE_SPACE}<{ID_DIGITS}}{GAP}{breakable(name)}"
    )


def _named(one: GateLine) -> str:
    return f"{one.player.name} (C)" if one.player.is_captain else one.player.name


def _stubs(night: Night, book: Rulebook, size: Size) -> dict[str, Any]:
    slip = rating_slip(book)
    if slip is None:
        return {"stubs": [], "slip": None, "stub-high": size.stub}
    return {
        "stubs": [
            stub
            for game in night.games
            if not game.is_open and not game.is_off
            for stub in _raters(game, night)
        ],
        "slip": {"values": slip.values, "says": slip.says, "head": words.STUB},
        "stub-high": size.stub,
    }


def _raters(game: NightGame, night: Night) -> Iterator[dict[str, Any]]:
    """Yield a stub for each official of a game who rates: two at most, no scorekeeper."""
    rating = [one for one in game.crew if one[0] != _BESIDE][:RATERS]
    for role, official in rating:
        yield {
            "start": f"{game.start:%H:%M}",
            "where": f"{day(night.day)}, {game.field}",
            "game": f"{STAGES[game.stage]} {game.game}",
            "teams": [breakable(game.home.name), breakable(game.away.name)],
            "role": words.role_word(role),
            "official": official,
        }
