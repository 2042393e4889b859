"""Says beside the fields of a sheet what a scorecard cannot mean, in the words of who types it."""

from wholeball.game.paper import PaperCard
from wholeball.game.paper_checks import Misfit, ended, misfits
from wholeball.game.rules import GameRules
from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.reports.game_told import period_name, the_period
from wholeball.usecases.scorecard_shown import shown_line
from wholeball.usecases.typed_answers import FILE


def refuse_unmeant(card: PaperCard, rules: GameRules) -> None:
    """Refuse a typed scorecard that cannot be meant, each fault at its field.

    Raises:
        InputFaults: everything that cannot be meant.
    """
    found = misfits(card, rules)
    if found:
        raise InputFaults([_fault(one, card, rules) for one in found])


def _fault(found: Misfit, card: PaperCard, rules: GameRules) -> Fault:
    name, cure = _at_field(found, card, rules)
    return Fault(
        code=found.code,
        place=Place(file=FILE, column=name),
        says=found.says,
        value=found.value,
        allowed=found.allowed,
        cure=cure,
    )


def _at_field(  # noqa: C901, PLR0911 - a branch a field
    found: Misfit, card: PaperCard, rules: GameRules
) -> tuple[str | None, str]:
    """Return the field of a fault and what to do there; no field for what only a file says."""
    match found.loc:
        case ("periods",):
            return _missing(card, rules)
        case ("periods" | "overtime" as part, int(index)):
            period = index + 1 + (len(card.periods) if part == "overtime" else 0)
            said = f"{found.value} is more goals than the time has room for: {found.allowed}."
            return f"period_{period}", said
        case ("ended",):
            said = "No mercy rule ends a game in overtime: choose another, or empty overtime."
            return "ended", said
        case ("minutes_left",):
            return "minutes_left", _left(found)
        case ("yellow" | "red" as colour, int(index), "period"):
            shown = (card.yellow if colour == "yellow" else card.red)[index]
            whose = shown_line(shown, rules).split(" ")[0]
            return colour, _unplayed(f"The minute of {whose}", shown.period, rules)
        case ("protests", int(index), "period"):
            protest = card.protests[index]
            return f"protest_minute_{protest.side}", _unplayed("It", protest.period, rules)
        case ("goals", int(index)):
            return _scorers(found, card, index, rules)
        case ("home_players" | "away_players" as key, int()):
            side = key.removesuffix("_players")
            return f"players_{side}", f"{found.value} stands there twice. Take one out."
        case _:
            return None, found.cure


def _missing(card: PaperCard, rules: GameRules) -> tuple[str, str]:
    first = f"period_{len(card.periods) + 1}"
    ways = ended(card)
    if "default" in ways:
        said = "A game that a side defaulted has no goals: empty them, or choose a forfeit."
        return "ended", said
    if card.kicks is not None:
        return first, "Fill it in: kicks from the mark came after it."
    if "mercy" in ways:
        return first, "Fill it in: it is by its goals that the mercy rule ends a game."
    name = period_name(rules, len(card.periods) + 1)
    return first, (
        f"Fill in the goals of the {name}, 0-0 where there were none; or open It did not end at "
        "full time, and say there how the game ended."
    )


def _left(found: Misfit) -> str:
    match found.code:
        case "missing":
            return "Fill it in: the game ended before its time."
        case "range":
            return found.cure
        case _:
            return "Empty it, or say how the game ended before its time."


def _unplayed(what: str, period: int | None, rules: GameRules) -> str:
    name = the_period(rules, period or 1)
    return f"{what} is in {name}, which has no goals yet. Fill those in, or mend the minute."


def _scorers(found: Misfit, card: PaperCard, index: int, rules: GameRules) -> tuple[str, str]:
    goal = card.goals[index]
    side = "home" if goal.side == "home" else "away"
    made = found.allowed.removeprefix("at most ")
    return f"scorers_{goal.period}", (
        f"{found.value} goals of the {side} side are listed, and {made} were made in "
        f"{the_period(rules, goal.period)}. Take one out, or mend the goals."
    )
