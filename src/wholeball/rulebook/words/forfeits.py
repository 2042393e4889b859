"""Says what the articles about forfeits and defaults mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, say
from wholeball.rulebook.tables.season import AwardedScore
from wholeball.rulebook.value import After, Most
from wholeball.rulebook.words.amounts import plain

_CHOSEN: Final = {
    "opponents": "{who} choose whether to wait.",
    "supervisor": "{who} chooses whether to wait.",
}
_WHO: Final = {"opponents": "The opponents", "supervisor": "The supervisor"}
_IS_WAITED: Final = {
    "opponents": "may be waited",
    "supervisor": "may be waited",
    "always_waited": "is waited",
}
_NOTICE: Final = {
    "same_day": "on the day of the game",
    "day_before": "on the day before the game",
    "last_working_day": "on the last working day before the game",
}
_DOUBLE: Final = {
    "both_lose": "both lose 0-0, each with the points of a forfeit",
    "annulled": "the game does not count",
}
_RESULTS: Final = {
    "annulled": "all its games stop counting",
    "kept": "the games it has played still count, the rest do not",
    "rest_forfeited": "the games it has played still count, and it forfeits the rest",
}


def _forfeit(book: Rulebook) -> tuple[Sentence, ...]:
    forfeit = book.forfeit
    score = say("If a side forfeits, the other wins {score}.", score=_score(forfeit.score))
    counts = _in_difference(forfeit.in_difference)
    if not forfeit.in_difference:
        return (score, counts)
    stands = "stands instead" if forfeit.played_if_worse else "does not matter"
    played = say("A score already played that is worse for that side {stands}.", stands=stands)
    return (score, counts, played)


def _score(score: AwardedScore) -> str:
    return f"{score.winners}-{score.losers}"


def _in_difference(counts: bool) -> Sentence:  # noqa: FBT001 - one value in, one sentence out
    word = "count" if counts else "do not count"
    return say("These goals {count} in goals and difference.", count=word)


def _grace(book: Rulebook) -> tuple[Sentence, ...]:
    grace = book.forfeit.grace
    if grace.minutes == 0:
        return (say("{nobody} is waited for: game time is forfeit time.", nobody="Nobody"),)
    runs = "is taken" if grace.clock_runs else "is not taken"
    return (
        say(
            "A side that is short at game time {is_waited} for {time}.",
            is_waited=_IS_WAITED[grace.chosen_by],
            time=counted(grace.minutes, "minute"),
        ),
        *_chosen(book),
        say("The time waited {runs} off the game.", runs=runs),
    )


def _chosen(book: Rulebook) -> tuple[Sentence, ...]:
    grace = book.forfeit.grace
    if grace.chosen_by == "always_waited":
        return ()
    final = "stands" if grace.final else "may be changed"
    return (
        say(_CHOSEN[grace.chosen_by], who=_WHO[grace.chosen_by]),
        say("The choice, once made, {final}.", final=final),
    )


def _default(book: Rulebook) -> tuple[Sentence, ...]:
    default = book.forfeit.default
    if default.allowed == 0:
        return (say("There are {no} defaults: a team that does not come forfeits.", no="no"),)
    return (
        _allowed(default.allowed),
        _notice(book),
        say("The other side wins {score}.", score=_score(default.score)),
        _in_difference(default.in_difference),
    )


def _allowed(most: Most) -> Sentence:
    if most == "no_limit":
        return say(
            "A forfeit announced in time is a default; a team may default {often}.",
            often="any number of times",
        )
    return say(
        "A forfeit announced in time is a default; a team has {often} in a season, more are "
        "forfeits.",
        often=counted(most, "default"),
    )


def _notice(book: Rulebook) -> Sentence:
    default = book.forfeit.default
    if default.notice_day == "hours_before":
        return say(
            "Notice comes at least {hours} before the start.",
            hours=counted(default.notice_hours, "hour"),
        )
    return say(
        "Notice comes by {time} {day}.",
        time=f"{default.notice_by:%H:%M}",
        day=_NOTICE[default.notice_day],
    )


def _double(book: Rulebook) -> tuple[Sentence, ...]:
    return (say("If neither side is ready, {then}.", then=_DOUBLE[book.forfeit.double.then]),)


def _removal(book: Rulebook) -> tuple[Sentence, ...]:
    removal = book.forfeit.removal
    return (
        _removed(removal.after_forfeits),
        say("When a team leaves the league, {results}.", results=_RESULTS[removal.results]),
    )


def _removed(after: After) -> Sentence:
    if after == "no_limit":
        return say("{no} number of forfeits takes a team out of the league.", no="No")
    return say("A team is out of the league after {after}.", after=counted(after, "forfeit"))


def _fee(book: Rulebook) -> tuple[Sentence, ...]:
    fee = book.forfeit.fee
    if fee.amount == 0:
        return (say("A forfeit costs {no} fee.", no="no"),)
    waits = "may not play" if fee.captain_waits else "may play"
    return (
        say("A forfeit costs a fee of {amount} in local currency.", amount=plain(fee.amount)),
        say("The captain {waits} until it is settled.", waits=waits),
    )


WORDS: Final[Dictionary] = {
    "forfeit": Words(title="Forfeits", says=_forfeit),
    "forfeit.grace": Words(title="Waiting for a side", says=_grace),
    "forfeit.default": Words(title="Defaults", says=_default),
    "forfeit.double": Words(title="Neither side ready", says=_double),
    "forfeit.removal": Words(title="Leaving the league", says=_removal),
    "forfeit.fee": Words(title="The fee for a forfeit", says=_fee),
}
