"""Says what the articles about the clock, mercy, level games, overtime and kicks mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, listed, say
from wholeball.rulebook.tables.time import Stops

_RUNS: Final = {"running": "runs on", "stopped": "stops"}
_STOPS: Final[dict[Stops, str]] = {
    "goal": "a goal",
    "caution": "a yellow",
    "sending_off": "a red",
    "penalty": "a penalty kick",
    "injury": "an injury",
    "substitution": "a substitution",
    "ball_out": "a ball out of play",
    "hold": "a weather hold",
}
_IS_ADDED: Final = {"added": "is added", "not_added": "is not added"}
_CHANCE: Final = {
    "none": "nothing",
    "in_or_by_penalty_area": "an immediate chance in or by the penalty area",
    "attacking_half": "an immediate chance in the attackers' half",
    "anywhere": "an immediate chance anywhere",
}
_DECIDED: Final = {
    "coin": "A coin is tossed and {who} calls it.",
    "number_guessed": "The official holds one of two numbers and {who} guesses which.",
}
_WHO: Final = {
    "visiting_captain": "the visiting captain",
    "home_captain": "the home captain",
    "either": "either captain",
}
_CHOOSES: Final = {
    "end": "which end to attack; the other side kicks off",
    "kick_off": "who kicks off; the other side chooses its end",
    "end_or_kick_off": "an end or the kick-off; the other side gets the other choice",
}
_LEVEL: Final = {
    "draw": "is a draw",
    "overtime": "goes to overtime, and is a draw if that leaves it level",
    "kicks": "goes to kicks from the mark",
    "overtime_then_kicks": "goes to overtime, then to kicks from the mark",
}
_OVERTIME_ENDS: Final = {
    "full_time": "is played in full",
    "golden_goal": "ends with the first goal",
}
_KICKS_END: Final = {
    "as_soon_as_decided": "as soon as one side cannot be caught",
    "all_taken": "when all of these have been taken",
}
_TAKERS: Final = {
    "on_field_at_end": "players who were on the field at the end",
    "whole_roster_present": "players of the roster who are present",
}
_ORDER: Final = {
    "free": "free",
    "genders_alternate": "women and men in turn",
}
_TWICE: Final = {
    "after_all_eligible": "once everybody who may kick has done so",
    "never": "never",
}
_EQUAL: Final = {
    "larger_side_reduces": "leaves players out until both have the same number",
    "not_asked": "leaves nobody out",
}


def _game(book: Rulebook) -> tuple[Sentence, ...]:
    game = book.game
    periods, minutes = _lasting(game.periods, game.minutes)
    return (
        say("A game has {periods} of {minutes}.", periods=periods, minutes=minutes),
        *_interval(game.periods, game.interval_minutes),
        _clock(book),
        say("It counts {way}.", way=game.counts),
    )


def _clock(book: Rulebook) -> Sentence:
    game = book.game
    is_listed = game.clock == "running" and game.stoppages.clock_stops_for
    save = ", save for what stops it" if is_listed else ""
    return say("The clock {runs} while play is stopped" + save + ".", runs=_RUNS[game.clock])


def _lasting(periods: int, minutes: int) -> tuple[str, str]:
    each = " each" if periods > 1 else ""
    return counted(periods, "period"), f"{counted(minutes, 'minute')}{each}"


def _interval(periods: int, minutes: int) -> tuple[Sentence, ...]:
    if periods == 1:
        return ()
    if minutes == 0:
        return (say("There is {no} break between them.", no="no"),)
    return (say("Between them is a break of {time}.", time=counted(minutes, "minute")),)


def _stoppages(book: Rulebook) -> tuple[Sentence, ...]:
    stoppages = book.game.stoppages
    what = listed(tuple(_STOPS[stop] for stop in stoppages.clock_stops_for), last="or")
    return (
        say("The clock stops for {what}.", what=what or "nothing"),
        say("Time lost {is_added} to the period.", is_added=_IS_ADDED[stoppages.lost_time]),
    )


def _period_end(book: Rulebook) -> tuple[Sentence, ...]:
    end = book.game.period_end
    completed = "is still" if end.penalty_completed else "is not"
    return (
        _over(book),
        say("A penalty kick given before that {completed} taken.", completed=completed),
    )


def _over(book: Rulebook) -> Sentence:
    end = book.game.period_end
    if end.at == "time":
        return say("A period is over {when}.", when="when its time is up")
    return say(
        "When its time is up, a period is over once {chance} is {played}.",
        chance=_CHANCE[end.chance],
        played="played out",
    )


def _breaks(book: Rulebook) -> tuple[Sentence, ...]:
    breaks = book.game.breaks
    return (_drinks(breaks.drinks_seconds_most), _cooling(book))


def _drinks(most: int) -> Sentence:
    if most == 0:
        return say("There is {no} drinks break.", no="no")
    return say("A drinks break lasts at most {time}.", time=counted(most, "second"))


def _cooling(book: Rulebook) -> Sentence:
    breaks = book.game.breaks
    if breaks.cooling_seconds_most == 0:
        return say("There is {no} cooling break.", no="no")
    return say(
        "A cooling break lasts {least} to {most}; local policy on heat comes first.",
        least=breaks.cooling_seconds_least,
        most=counted(breaks.cooling_seconds_most, "second"),
    )


def _ends(book: Rulebook) -> tuple[Sentence, ...]:
    ends = book.ends
    return (
        say(_DECIDED[ends.decided_by], who=_WHO[ends.guesser]),
        say("The winner chooses {what}.", what=_CHOOSES[ends.winner_chooses]),
        *_changed(book),
    )


def _changed(book: Rulebook) -> tuple[Sentence, ...]:
    if book.game.periods == 1:
        return ()
    change = "change" if book.ends.change_ends else "do not change"
    when = "at half-time" if book.game.periods == 2 else "after each period"
    return (say("The sides {change} ends " + when + ".", change=change),)


def _mercy(book: Rulebook) -> tuple[Sentence, ...]:
    if not book.mercy.ladder:
        return (say("There is {no} mercy rule.", no="no"),)
    rungs = tuple(
        say(
            "It ends once a side leads by {lead} or more with {left} left.",
            lead=counted(rung.lead, "goal"),
            left=f"{counted(rung.minutes_left, 'minute')} or less",
        )
        for rung in book.mercy.ladder
    )
    return (say("A one-sided game ends early."), *rungs)


def _ties(book: Rulebook) -> tuple[Sentence, ...]:
    ties = book.ties
    return (
        say("A league game that ends level {then}.", then=_LEVEL[ties.league]),
        say("A play-off game that ends level {then}.", then=_LEVEL[ties.play_off]),
    )


def _overtime(book: Rulebook) -> tuple[Sentence, ...]:
    overtime = book.overtime
    if overtime.periods == 0 or overtime.minutes == 0:
        return (say("There is {no} overtime.", no="no"),)
    periods, minutes = _lasting(overtime.periods, overtime.minutes)
    pause = overtime.interval_minutes
    before = f"after a break of {counted(pause, 'minute')}" if pause else "without a break"
    return (
        say("Overtime is {periods} of {minutes}.", periods=periods, minutes=minutes),
        say("It {ends}.", ends=_OVERTIME_ENDS[overtime.ends]),
        say("It begins {before}.", before=before),
    )


def _kicks(book: Rulebook) -> tuple[Sentence, ...]:
    kicks = book.kicks
    return (
        say(
            "Each side takes {kicks}; they end {when}.",
            kicks=counted(kicks.each, "kick"),
            when=_KICKS_END[kicks.ends],
        ),
        _still_level(kicks.sudden_death),
    )


def _still_level(sudden_death: bool) -> Sentence:  # noqa: FBT001 - one value in, one sentence out
    if sudden_death:
        return say(
            "If they are still level, each side takes one more {again}.",
            again="until one leads after the same number of kicks",
        )
    return say("If they are still level, the game {ends} level.", ends="ends")


def _takers(book: Rulebook) -> tuple[Sentence, ...]:
    takers = book.kicks.takers
    carried = "still count" if takers.yellow_carried else "no longer count"
    return (
        say("They are taken by {who}.", who=_TAKERS[takers.who]),
        say("Their order is {order}.", order=_ORDER[takers.order]),
        say("A player takes a second kick {when}.", when=_TWICE[takers.twice]),
        say("A side with more players {reduces}.", reduces=_EQUAL[takers.equal_numbers]),
        say("Yellows shown in the game {carried} during the kicks.", carried=carried),
    )


WORDS: Final[Dictionary] = {
    "game": Words(title="The game", says=_game),
    "game.stoppages": Words(title="What stops the clock", says=_stoppages),
    "game.period_end": Words(title="When a period is over", says=_period_end),
    "game.breaks": Words(title="Short breaks", says=_breaks),
    "ends": Words(title="Ends and who kicks off", says=_ends),
    "mercy": Words(title="Mercy rule", says=_mercy),
    "ties": Words(title="Level games", says=_ties),
    "overtime": Words(title="Overtime", says=_overtime),
    "kicks": Words(title="Kicks from the mark", says=_kicks),
    "kicks.takers": Words(title="Who takes the kicks", says=_takers),
}
