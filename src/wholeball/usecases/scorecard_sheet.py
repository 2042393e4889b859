"""Asks for all of a paper scorecard on one sheet, in the order in which people read one.

What the terminal's dialogue asks one after the other stands here together, filled in with what
was entered before.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from wholeball.game.paper import PaperCard, PaperRating, PaperRefusal
from wholeball.game.paper_checks import ended
from wholeball.game.rules import GameRules
from wholeball.kernel.identity import Side
from wholeball.reports.game_entries import ABOUT, WHY_BROKEN, WHY_FORFEITED, capital
from wholeball.reports.game_told import period_name
from wholeball.usecases import scorecard_answers as answers
from wholeball.usecases import scorecard_before as before
from wholeball.usecases.scorecard_minutes import minute_text, minutes_hint, such_a_minute
from wholeball.usecases.scorecard_more import goal_lines, player_lines
from wholeball.usecases.scorecard_shown import shown_line

Rater: TypeAlias = Literal["official", "opponent"]
Kind: TypeAlias = Literal["line", "lines", "choice", "day"]
Part: TypeAlias = Literal["goals", "ending", "shown", "ratings", "end", "more"]
Options: TypeAlias = tuple[tuple[str, str], ...]
_ENDINGS: Final[Options] = (
    ("", "at full time"),
    ("m", "by the mercy rule"),
    ("f", "by a forfeit"),
    ("d", "by a default, announced beforehand"),
    ("b", "it was broken off"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One answer that the sheet asks for; `value` is what was entered before."""

    name: str
    label: str
    part: Part
    kind: Kind = "line"
    hint: str = ""
    value: str = ""
    options: Options = ()


def asked(rules: GameRules, was: PaperCard, *, home: str, away: str) -> tuple[Asked, ...]:
    """Return what the sheet asks for, in its order."""
    return (
        *_goals(rules, was, home=home, away=away),
        *_ending(was, home=home, away=away),
        *_shown(was, rules),
        *_ratings(rules, was, home=home, away=away),
        *_end(was),
        *_more(rules, was, home=home, away=away),
    )


def _goals(rules: GameRules, was: PaperCard, *, home: str, away: str) -> Iterator[Asked]:
    last = rules.last_period if rules.has_overtime else rules.periods
    for period in range(1, last + 1):
        kept = before.score(was, period, rules)
        yield Asked(
            name=f"period_{period}",
            label=capital(period_name(rules, period)),
            part="goals",
            hint="Goals of it alone, home first: 2-1." if period == 1 else "",
            value="" if kept is None else f"{kept.home}-{kept.away}",
        )
    if rules.has_kicks:
        kicks = was.kicks
        yield Asked(
            name="kicks_first",
            label="Kicks from the mark: who kicked first",
            part="goals",
            kind="choice",
            value=kicks.first[0] if kicks else "",
            options=(("", "no kicks"), ("h", home), ("a", away)),
        )
        for side, name in (("home", home), ("away", away)):
            yield Asked(
                name=f"kicks_{side}",
                label=f"Kicks of {name}",
                part="goals",
                hint="A letter a kick: o scored, x not, - not taken.",
                value=getattr(kicks, side) if kicks else "",
            )


def _ending(was: PaperCard, *, home: str, away: str) -> Iterator[Asked]:
    sides: Options = (("", "nobody"), ("h", home), ("a", away))
    forfeit, default, broken = was.forfeit, was.default, was.broken_off
    yield Asked(
        name="ended",
        label="How it ended",
        part="ending",
        kind="choice",
        value=before.way(ended(was)),
        options=_ENDINGS,
    )
    by = forfeit.by if forfeit else default.by if default else None
    if broken is not None:
        by = broken.to_blame
    yield Asked(
        name="by",
        label="Who forfeits, defaults or is to blame",
        part="ending",
        kind="choice",
        value=by[0] if by else "",
        options=(*sides, ("b", "both")),
    )
    yield Asked(
        name="why",
        label="Why it was forfeited or broken off",
        part="ending",
        kind="choice",
        value=_kept_why(was),
        options=(("", "no such reason"), *_whys()),
    )
    yield Asked(
        name="in_time",
        label="The default was announced in time",
        part="ending",
        kind="choice",
        value=("y" if default.in_time else "n") if default else "",
        options=(("", "no default"), ("y", "yes"), ("n", "no")),
    )
    yield Asked(
        name="minutes_left",
        label="Minutes the clock of the last period still had",
        part="ending",
        value="" if was.minutes_left is None else str(was.minutes_left),
    )


def _whys() -> Options:
    """Return the reasons of both kinds, each once; a word that both have means the same."""
    forfeited = {key: f"forfeited: {why}" for key, why in WHY_FORFEITED.items()}
    broken = {key: f"broken off: {why}" for key, why in WHY_BROKEN.items()}
    both = {key: WHY_BROKEN[key] for key in forfeited.keys() & broken.keys()}
    return tuple({**forfeited, **broken, **both}.items())


def _kept_why(was: PaperCard) -> str:
    if was.forfeit is not None:
        return was.forfeit.why
    return was.broken_off.why if was.broken_off is not None else ""


def _shown(was: PaperCard, rules: GameRules) -> Iterator[Asked]:
    hint = (
        f"One a line: side, number, minute if known, reason, such as h7 {such_a_minute(rules)} "
        f"dissent. {minutes_hint(rules)}"
    )
    for name, label, kept in (("yellow", "Yellow", was.yellow), ("red", "Red", was.red)):
        yield Asked(
            name=name,
            label=label,
            part="shown",
            kind="lines",
            hint=hint,
            value="\n".join(shown_line(one, rules) for one in kept),
        )


def _ratings(rules: GameRules, was: PaperCard, *, home: str, away: str) -> Iterator[Asked]:
    scale = rules.book.ratings.scale
    for rater, side in rated_by(rules):
        name, other = (home, away) if side == "home" else (away, home)
        whose = f" by {other}" if rater == "opponent" else ""
        kept = _kept_rating(was, rater, side)
        yield Asked(
            name=f"rating_{rater}_{side}",
            label=f"Rating of {name}{whose}",
            part="ratings",
            hint=f"{scale.low:f} to {scale.high:f} by {scale.step:f}.",
            value=f"{kept.value:f}" if kept else "",
        )
        yield Asked(
            name=f"reason_{rater}_{side}",
            label=f"Reason for the rating of {name}{whose}",
            part="ratings",
            hint=f"Needed for {rules.book.ratings.reason_at_or_below:f} or less.",
            value=kept.reason if kept else "",
        )


def rated_by(rules: GameRules) -> Iterator[tuple[Rater, Side]]:
    """Yield whose rating of which side a sheet of paper has."""
    by = rules.book.ratings.by
    raters: tuple[Rater, ...] = ()
    if by in ("officials", "officials_and_opponents"):
        raters += ("official",)
    if by in ("opponents", "officials_and_opponents"):
        raters += ("opponent",)
    sides: tuple[Side, Side] = ("home", "away")
    yield from ((rater, side) for rater in raters for side in sides)


def _kept_rating(was: PaperCard, rater: Rater, side: Side) -> PaperRating | None:
    return next((one for one in was.ratings if (one.side, one.by) == (side, rater)), None)


def _end(was: PaperCard) -> Iterator[Asked]:
    if was.resumed is not None:
        on = was.resumed.on
        yield Asked(
            name="resumed_on",
            label="The day the game went on",
            part="end",
            kind="day",
            hint="From it on, what was shown that night can suspend.",
            value="" if on is None else on.isoformat(),
        )
    yield Asked(
        name="signed",
        label="Who signed",
        part="end",
        hint="Letters: h and a captains, o official, s scorekeeper, u supervisor, such as hao.",
        value=answers.Signing(was.signed, has_refusals=False).letters,
    )
    yield Asked(
        name="refused",
        label="Who refused to sign, and why",
        part="end",
        kind="lines",
        hint="One a line: the letter and the reason, such as a did not agree with a goal.",
        value="\n".join(map(_refusal_line, was.refused)),
    )
    yield Asked(name="note", label="Note", part="end", kind="lines", value=was.note)


def _more(rules: GameRules, was: PaperCard, *, home: str, away: str) -> Iterator[Asked]:
    """Yield what few scorecards hold, last: the page keeps it folded."""
    names: tuple[tuple[Side, str], ...] = (("home", home), ("away", away))
    for side, name in names:
        kept = next((one for one in was.protests if one.side == side), None)
        yield Asked(
            name=f"protest_{side}",
            label=f"Protest of {name} by its captain",
            part="more",
            kind="choice",
            value=kept.about if kept else "",
            options=(
                ("", "no protest"),
                *((key, f"against {says}") for key, says in ABOUT.items()),
            ),
            hint="What was said goes into the note. The coordinator rules on it.",
        )
        yield Asked(
            name=f"protest_minute_{side}",
            label=f"Minute of the protest of {name}, if known",
            part="more",
            value=minute_text(kept.period, kept.minute, rules) if kept else "",
        )
    last = rules.last_period if rules.has_overtime else rules.periods
    for period in range(1, last + 1):
        yield Asked(
            name=f"scorers_{period}",
            label=f"Scorers, {period_name(rules, period)}",
            part="more",
            kind="lines",
            value=goal_lines(was.goals, period, rules),
            hint="One a line: side that gets the goal, number, minute if known, own or pen, such "
            "as h9 pen.",
        )
    for side, name in names:
        yield Asked(
            name=f"players_{side}",
            label=f"Who played for {name}",
            part="more",
            kind="lines",
            value=player_lines(was.home_players if side == "home" else was.away_players),
            hint="Shirt numbers with commas between; one without a number by name, on a line of "
            "its own. List everybody or nobody: who is not listed counts as not there.",
        )


def _refusal_line(one: PaperRefusal) -> str:
    letter = answers.Signing((one.by,), has_refusals=False).letters
    return f"{letter} {' '.join(one.reason.split())}".strip()
