"""Says each kind of entry of a game in one sentence, and nothing of a private record."""

from datetime import date
from typing import Final

from wholeball.game import happenings as was
from wholeball.game.event import Event
from wholeball.game.happenings import EventId
from wholeball.game.state import Score
from wholeball.kernel.identity import Side
from wholeball.reports.dates import day
from wholeball.reports.figures import score
from wholeball.reports.game_persons import person, shown
from wholeball.reports.game_told import ToldGame, other, player, side_name
from wholeball.rulebook.sentence import Sentence, counted, listed, say

WHY_STOPPED: Final[dict[was.Stop, str]] = {
    "goal": "a goal",
    "caution": "a yellow",
    "sending_off": "a red",
    "penalty": "a penalty kick",
    "injury": "an injury",
    "substitution": "a substitution",
    "ball_out": "the ball out of play",
    "hold": "a hold",
    "other": "another reason",
}
WHY_HELD: Final[dict[str, str]] = {
    "thunder": "thunder",
    "flash": "a flash",
    "heat": "heat",
    "cold": "cold",
    "air": "the air",
    "field": "the state of the field",
    "other": "another reason",
}
WHY_FORFEITED: Final[dict[str, str]] = {
    "not_ready": "not ready",
    "too_few": "too few players",
    "left": "left the field",
    "barred_player": "a player who may not play",
    "conduct": "conduct",
    "other": "another reason",
}
WHY_BROKEN: Final[dict[str, str]] = {
    "weather": "the weather",
    "lights": "the lights",
    "field": "the state of the field",
    "injury": "an injury",
    "disorder": "disorder",
    "numbers": "too few players",
    "other": "another reason",
}
WHY_OFF: Final[dict[str, str]] = {
    "caution": "after yellow",
    "equipment": "to mend equipment",
    "bleeding": "for a bleeding to be seen to",
    "other": "for another reason",
}
SIGNERS: Final[dict[was.Signer, str]] = {
    "home_captain": "the home captain",
    "away_captain": "the away captain",
    "official": "the official",
    "scorekeeper": "the scorekeeper",
    "supervisor": "the supervisor",
}
ABOUT: Final[dict[str, str]] = {
    "rule_misapplied": "a rule that was misapplied",
    "eligibility": "a player's eligibility",
    "judgement": "a judgement of the official",
}


def entry(
    told: ToldGame, event: Event, *, after: Score | None = None, counts: bool = False
) -> Sentence | None:
    """Return what an entry says, or None where it is not for this reader or is no news.

    `counts` tells whether a goal counts, and `after` is the score after it where that is known.
    """
    match event.what:
        case was.Goal() as goal:
            return _goal(told, goal, after, counts=counts)
        case was.Cautioned() | was.SentOff() as card:
            return _card(told, card)
        case was.CheckedIn() | was.Retracted() | was.Amended() | was.Answered():
            return None
        case was.Noted() | was.Rated() | was.IncidentNoted() as private:
            return _private(told, private) if told.reader == "officials" else None
        case was.PeriodStarted() | was.PeriodEnded() | was.TimeUp() as turn:
            return _turn(told, turn)
        case _:
            return _also(told, event)


def entry_name(told: ToldGame, event: EventId) -> str:
    """Return how a question names an entry: "goal of number 7 of Ash"."""
    found = told.event(event)
    if found is None:
        return "entry"
    match found.what:
        case was.Goal() as goal:
            return f"{'own goal' if goal.own else 'goal'} of {_scorer(told, goal)}"
        case was.KickTaken() as kick:
            return f"kick of {person(told, kick.side, kick.number)}"
        case was.Cautioned() as card:
            return f"yellow of {shown(told, card)}"
        case was.SentOff() as card:
            return f"red of {shown(told, card)}"
        case _:
            return "entry"


def _goal(told: ToldGame, goal: was.Goal, after: Score | None, *, counts: bool) -> Sentence:
    how = ", from the penalty mark" if goal.penalty else ""
    then = ": {score}." if after is not None else "."
    by = "for" if _is_unnamed(goal) else "by"
    return say(
        f"{'Own goal' if goal.own else 'Goal'} {by} {{who}}{how}"
        f"{then if counts else ': it does not count.'}",
        who=_scorer(told, goal),
        score=score(*after) if after is not None else "",
    )


def _scorer(told: ToldGame, goal: was.Goal) -> str:
    """Return who scored; the side alone where nobody wrote a name down."""
    side = other(goal.side) if goal.own else goal.side
    return side_name(told, side) if _is_unnamed(goal) else person(told, side, goal.number)


def _is_unnamed(goal: was.Goal) -> bool:
    return not goal.timed and goal.number is None and not goal.own


def _card(told: ToldGame, card: was.Cautioned | was.SentOff) -> Sentence:
    second = (
        ", for another yellow" if isinstance(card, was.SentOff) and card.second_caution else ""
    )
    why = ": {reason}." if told.reader == "officials" and card.reason else "."
    colour = "Yellow" if isinstance(card, was.Cautioned) else "Red"
    return say(f"{colour} for {{who}}{second}{why}", who=shown(told, card), reason=card.reason)


def _kick(told: ToldGame, kick: was.KickTaken) -> Sentence:
    how = "scores" if kick.scored else "does not score"
    if not kick.taken:
        return say("A kick of {side} was not taken.", side=side_name(told, kick.side))
    who = person(told, kick.side, kick.number)
    return say(f"{{who}} {how} from the mark.", who=capital(who))


def _private(told: ToldGame, private: was.Noted | was.Rated | was.IncidentNoted) -> Sentence:
    match private:
        case was.Noted(text=text):
            return say("Note: {text}", text=text)
        case was.Rated(side=side, hundredths=hundredths):
            return say(
                "{side} is rated {rating}.",
                side=side_name(told, side),
                rating=f"{hundredths / 100:g}",
            )
        case was.IncidentNoted():
            return say("An incident is told in a private record.")


def _turn(told: ToldGame, turn: was.PeriodStarted | was.PeriodEnded | was.TimeUp) -> Sentence:
    match turn:
        case was.PeriodStarted(kick_off=None):
            return say("The period begins.")
        case was.PeriodStarted(kick_off=side):
            return say("The period begins; {side} kicks off.", side=side_name(told, side))
        case was.PeriodEnded():
            return say("The period ends.")
        case was.TimeUp():
            return say("Time is up while a chance is on.")


def _also(told: ToldGame, event: Event) -> Sentence:  # noqa: C901, PLR0911, PLR0912 - one flat list
    match event.what:
        case was.EndsChosen(winner=side, chose=chose):
            what = "an end" if chose == "end" else "to kick off"
            return say("{side} chooses {what}.", side=capital(side_name(told, side)), what=what)
        case was.ShortAtStart(side=side, present=present):
            return say(
                "{side} is short at the scheduled start, with {present}.",
                side=side_name(told, side),
                present=counted(present, "player"),
            )
        case was.WaitChosen(by=by, waits=waits):
            who = "The supervisor" if by == "supervisor" else side_name(told, by)
            return say(f"{{who}} chooses {'to wait' if waits else 'not to wait'}.", who=who)
        case was.GotReady(side=side):
            return say("{side} is ready.", side=side_name(told, side))
        case was.PlayStopped(why=why):
            return say("Play stops for {why}.", why=WHY_STOPPED[why])
        case was.PlayRestarted():
            return say("Play goes on.")
        case was.HoldBegan(why=held):
            return say("Hold: play stops for {why}.", why=WHY_HELD[held])
        case was.HoldEnded(by=by):
            return say("The hold is lifted by {by}.", by=SIGNERS[by])
        case was.Counted(side=side, on_field=count):
            return say(
                "{side} has {count} on the field.", side=side_name(told, side), count=count
            )
        case was.Substituted(side=side, off=off, on=on):
            return say(
                "{side}: {on} comes on for {off}.",
                side=side_name(told, side),
                on=player(on),
                off=player(off),
            )
        case was.CameOff(side=side, number=number, why=gone):
            who = capital(person(told, side, number))
            return say("{who} comes off {why}.", who=who, why=WHY_OFF[gone])
        case was.CameBack(side=side, number=number):
            return say("{who} comes on again.", who=capital(person(told, side, number)))
        case was.Injured(side=side, number=number):
            return say("Play stops for {who}, who is injured.", who=person(told, side, number))
        case was.HeadInjurySuspected(side=side, number=number):
            known = ": a head injury is suspected" if told.reader == "officials" else ""
            who = capital(person(told, side, number))
            return say(f"{{who}} is out for the day{known}.", who=who)
        case was.GoalkeeperChanged(side=side, number=number):
            return say("{who} keeps goal.", who=capital(person(told, side, number)))
        case was.KickersListed(side=side, numbers=numbers):
            return _kickers(told, side, numbers, "may take kicks from the mark")
        case was.KickersReduced(side=side, numbers=numbers):
            return _kickers(told, side, numbers, "are left out of the kicks")
        case was.KickTaken() as kick:
            return _kick(told, kick)
        case _:
            return _around(told, event)


def _around(told: ToldGame, event: Event) -> Sentence:  # noqa: PLR0911 - one flat list
    match event.what:
        case was.Forfeited(by="both", why=why):
            return say("Both sides forfeit: {why}.", why=WHY_FORFEITED[why])
        case was.Forfeited(by=("home" | "away") as side, why=why):
            who = side_name(told, side)
            return say("{who} forfeits: {why}.", who=who, why=WHY_FORFEITED[why])
        case was.Defaulted(by=side, in_time=in_time):
            way = "in time" if in_time else "too late"
            return say(
                "{side} says {way} that it will not come.", side=side_name(told, side), way=way
            )
        case was.BrokenOff(why=why):
            return say("The game is broken off for the day: {why}.", why=WHY_BROKEN[why])
        case was.Resumed(on=on):
            when = "" if on is None else f", on {day(date.fromisoformat(on))}"
            return say("The game goes on where it was broken off{when}.", when=when)
        case was.Replayed(protest=protest):
            since = "its start" if protest is None else "the moment of a protest"
            return say("The game is played again from {since}.", since=since)
        case was.Protested(side=side, about=about):
            who = side_name(told, side)
            return say("{who} protests against {about}.", who=who, about=ABOUT[about])
        case _:
            return _signing(told, event)


def _signing(told: ToldGame, event: Event) -> Sentence:
    match event.what:
        case was.Signed(by=by):
            return say("{by} signs the scorecard.", by=capital(SIGNERS[by]))
        case was.SignRefused(by=by):
            return say("{by} refuses to sign the scorecard.", by=capital(SIGNERS[by]))
        case was.Disallowed(target=target):
            return say("The {goal} is disallowed.", goal=entry_name(told, target))
        case was.Certified():
            return say("The result is certified.")
        case was.Reopened():
            return say("The result is open again.")
        case was.Unread(kind=kind, v=version):
            return say(
                "An entry of a newer kind ({kind}, version {version}) is kept and not read; "
                "update this program.",
                kind=kind,
                version=version,
            )
        case _:
            message = f"no words for an entry of the kind {event.what.type}"
            raise AssertionError(message)


def capital(text: str) -> str:
    """Return text with its first letter large, the rest as it is."""
    return text[:1].upper() + text[1:]


def _kickers(told: ToldGame, side: Side, numbers: tuple[int, ...], what: str) -> Sentence:
    return say(
        f"{{side}}: {{who}} {what}.",
        side=side_name(told, side),
        who=listed(tuple(str(number) for number in numbers)) or "nobody",
    )
