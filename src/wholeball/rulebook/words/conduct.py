"""Says what the articles about goalkeepers, fouls, yellow and red mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say
from wholeball.rulebook.words import goalkeeping
from wholeball.rulebook.words.phrases import THEN, may

_ARM_ENDS: Final = {"shoulder": "shoulder", "bottom_of_armpit": "bottom of the armpit"}
_BEFORE_GOAL: Final = {
    "deliberate_only": "is no offence",
    "own_or_team_mates_goal": "is an offence if that player or a team-mate then scores",
    "own_immediate_goal": "is an offence only if that same player scores with it or right after",
}
_WITH_PENALTY: Final = {
    "as_deliberate": "as deliberate handling is",
    "as_other_fouls": "as other fouls are: yellow for denying an obvious chance, nothing for "
    "stopping a promising attack",
}
_GOAL_STANDS: Final = {
    "unless_on_field": "an extra person on the field",
    "unless_interfered": "an extra person on the field who interfered",
}
_TOUCH: Final = {
    "free_kick_and_caution": "the opponents get a free kick and that person is shown yellow",
    "indirect_free_kick": "the opponents get an indirect free kick and nobody is shown yellow",
}
_INTERFERENCE: Final = {
    "dropped_ball": "play goes on with a dropped ball",
    "direct_free_kick": "the opponents get a direct free kick",
}
_UNIDENTIFIED: Final = {
    "nobody": "nobody is shown it",
    "senior_coach": "the senior coach there is shown it",
}


def _handball(book: Rulebook) -> tuple[Sentence, ...]:
    handball = book.handball
    return (
        say(
            "Handling counts with the hand and the arm up to the {end}.",
            end=_ARM_ENDS[handball.arm_ends],
        ),
        say(
            "Accidental handling before a goal {is_it}.",
            is_it=_BEFORE_GOAL[handball.before_goal],
        ),
        say(
            "Where handling that was not deliberate brings a penalty kick, it is punished "
            "{how}.",
            how=_WITH_PENALTY[handball.not_deliberate_with_penalty],
        ),
    )


def _slide_tackle(book: Rulebook) -> tuple[Sentence, ...]:
    slide = book.slide_tackle
    if slide.allowed:
        return (
            say("Slide tackles are {allowed}, judged as any tackle is.", allowed="allowed"),
        )
    return (
        say("Players {may} slide for the ball near an opponent.", may="may not"),
        say("If one does, {then}.", then=THEN[slide.then]),
        say("The player {shown} yellow for it.", shown=_is_shown(slide.caution)),
        say(
            "A goalkeeper in the own penalty area {may} slide.",
            may=may(slide.goalkeeper_exempt),
        ),
    )


def _is_shown(shown: bool) -> str:  # noqa: FBT001 - one value in, two words out
    return "is shown" if shown else "is not shown"


def _advantage(book: Rulebook) -> tuple[Sentence, ...]:
    advantage = book.advantage
    return (
        say(
            "When advantage is played, yellow for stopping a promising attack {shown}.",
            shown=_is_still_shown(cancelled=advantage.cancels_caution),
        ),
        say(
            "After a quick free kick, yellow for stopping a promising attack {shown}.",
            shown=_is_still_shown(cancelled=advantage.quick_kick_cancels_caution),
        ),
        say(
            "Advantage {may} be played when a restart was taken incorrectly.",
            may=may(advantage.incorrect_restart),
        ),
    )


def _is_still_shown(*, cancelled: bool) -> str:
    return "is not shown" if cancelled else "is still shown at the next stoppage"


def _extra_persons(book: Rulebook) -> tuple[Sentence, ...]:
    extra = book.extra_persons
    return (
        say(
            "A goal does not stand if the scoring side had {extra}.",
            extra=_GOAL_STANDS[extra.goal_stands],
        ),
        say(
            "If such a person, without unfair intent, touches a ball that is leaving the "
            "field, {then}.",
            then=_TOUCH[extra.touch_leaving_ball],
        ),
        say(
            "If a substitute or team official interferes with play, {then}.",
            then=_INTERFERENCE[extra.interference],
        ),
    )


def _cards(book: Rulebook) -> tuple[Sentence, ...]:
    yellows = counted(book.cards.cautions_for_red, "yellow")
    return (say("A player shown {yellows} in a game is shown red.", yellows=yellows),)


def _team_officials(book: Rulebook) -> tuple[Sentence, ...]:
    officials = book.cards.team_officials
    if not officials.shown:
        return (say("Team officials {shown} yellow or red.", shown="are not shown"),)
    return (
        say("Team officials {shown} yellow and red as players are.", shown="are shown"),
        say(
            "If nobody knows which of them offended, {shown}.",
            shown=_UNIDENTIFIED[officials.unidentified],
        ),
    )


def _cautioned(book: Rulebook) -> tuple[Sentence, ...]:
    cautioned = book.cards.cautioned
    if cautioned.comes_off == "no":
        return (say("A player shown yellow {plays_on}.", plays_on="plays on"),)
    until = (
        "until replaced"
        if cautioned.comes_off == "until_replaced"
        else f"for {counted(cautioned.minutes, 'minute')}"
    )
    return (
        say("A player shown yellow comes off {until}.", until=until),
        say("A substitute {may} come on at once.", may=may(cautioned.may_be_replaced)),
    )


def _sent_off(book: Rulebook) -> tuple[Sentence, ...]:
    sent_off = book.cards.sent_off
    return (_leaves(sent_off.leaves_within_minutes), _filled_up(book))


def _leaves(minutes: int) -> Sentence:
    if minutes == 0:
        return say("A player shown red leaves the field and its surroundings.")
    return say(
        "A player shown red leaves and is out of sight and sound within {minutes}.",
        minutes=counted(minutes, "minute"),
    )


def _filled_up(book: Rulebook) -> Sentence:
    sent_off = book.cards.sent_off
    if not sent_off.may_be_replaced:
        return say("The side {goes_on}.", goes_on="goes on with one player fewer")
    when = counted(sent_off.after_minutes, "minute")
    return say(
        "The side may fill up again {when}.",
        when=f"after {when}" if sent_off.after_minutes else "at once",
    )


WORDS: Final[Dictionary] = {
    **goalkeeping.WORDS,
    "handball": Words(title="Handling the ball", says=_handball),
    "slide_tackle": Words(title="Slide tackles", says=_slide_tackle),
    "advantage": Words(title="Advantage", says=_advantage),
    "extra_persons": Words(title="People who should not be on the field", says=_extra_persons),
    "cards": Words(title="Yellow and red", says=_cards),
    "cards.team_officials": Words(
        title="Yellow and red for team officials", says=_team_officials
    ),
    "cards.cautioned": Words(title="After yellow", says=_cautioned),
    "cards.sent_off": Words(title="After red", says=_sent_off),
}
