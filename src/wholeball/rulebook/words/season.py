"""Says what the articles around a season mean: ratings, suspensions, play-offs, protests, crews."""

from collections import Counter
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, listed, say
from wholeball.rulebook.words import forfeits, table_order
from wholeball.rulebook.words.amounts import plain

_RATED_BY: Final = {
    "officials": "the officials",
    "opponents": "the opponents",
    "officials_and_opponents": "the officials and the opponents",
}
_SERVED: Final = {
    "played_only": "games that are played",
    "played_and_forfeits": "games that are played and games that are forfeited",
    "any_scheduled": "every game that is scheduled",
}
_SUSPENDED_IN: Final = {
    "same_league": "in the same league only",
    "all_leagues": "in all leagues",
}
_BREACH: Final = {
    "forfeit": "its side forfeits",
    "coordinator": "the coordinator decides what follows",
}
_UNEQUAL: Final = {
    "per_game": "by their figures a game",
    "drop_games_against_last": "without the games against the last of the larger pools",
}
_SEEDED: Final = {
    "pool_place_then_record": "place in the pool, then record",
    "record": "record",
    "lots": "lots",
}
_ABOUT: Final = {
    "rule_misapplied": "a rule that was misapplied",
    "eligibility": "a player who was not eligible",
}
_RAISED: Final = {
    "before_next_live_ball": "before the ball is next in play",
    "before_leaving_field": "before leaving the field",
}
_RAISED_BY: Final = {"captain": "The captain", "any_player": "Any player"}
_WRITTEN: Final = {"same_day": "the same day", "next_working_day": "the next working day"}
_UPHELD: Final = {
    "replayed_from_moment": "the game is played again from that moment",
    "replayed": "the game is played again",
    "coordinator": "the coordinator decides what follows",
}
_COMPLETE: Final = {
    "half": "half of it has",
    "three_quarters": "three quarters of it have",
    "full_time": "all of it has",
}
_BEFORE_THAT: Final = {
    "resumed": "is resumed where it stopped",
    "replayed": "is played again",
    "annulled": "does not count",
}
_TO_BLAME: Final = {
    "forfeit": "that side forfeits",
    "coordinator": "the coordinator decides what follows",
}
_ROLES: Final = {
    "referee": "referee",
    "lead": "lead",
    "trail": "trail",
    "assistant": "assistant",
    "fourth_official": "fourth official",
    "scorekeeper": "scorekeeper",
}
_SYSTEM: Final = {
    "dual": "They work {how}.",
    "diagonal": "They work {how}.",
    "double_dual": "They work {how}.",
    "one_official": "{how} decides, alone.",
}
_HOW: Final = {
    "dual": "as lead and trail, both with a whistle",
    "diagonal": "as a referee on a diagonal with assistants on the touchlines",
    "double_dual": "as a referee with a lead and a trail, all with a whistle",
    "one_official": "One official",
}


def _ratings(book: Rulebook) -> tuple[Sentence, ...]:
    ratings = book.ratings
    if ratings.by == "nobody":
        return (say("There are {no} sportsmanship ratings.", no="no"),)
    scale = ratings.scale
    return (
        say(
            "After a game {who} rate each side from {low} to {high} in steps of {step}.",
            who=_RATED_BY[ratings.by],
            low=plain(scale.low),
            high=plain(scale.high),
            step=plain(scale.step),
        ),
        say(
            "A rating of {low} or lower needs a written reason.",
            low=plain(ratings.reason_at_or_below),
        ),
        say(
            "A side with a red gets at most {cap} in each rating.",
            cap=plain(ratings.cap_after_sending_off),
        ),
        say(
            "One rating of {floor} or lower goes to the coordinator.",
            floor=plain(ratings.floor),
        ),
        say(
            "An average counts from {count} on.",
            count=counted(ratings.minimum_count, "rated game"),
        ),
        say("Play-offs need an average of {least}.", least=plain(ratings.play_off_minimum)),
    )


def _given(book: Rulebook) -> tuple[Sentence, ...]:
    given = book.ratings.given
    if book.ratings.by == "nobody":
        return (say("A forfeit or a default brings {no} rating.", no="no"),)
    return (
        say(
            "A side that forfeits is rated {forfeiting}, a side that defaults {defaulting}, and "
            "the side that was ready {ready}.",
            forfeiting=plain(given.forfeiting),
            defaulting=plain(given.defaulting),
            ready=plain(given.ready),
        ),
    )


def _discipline(book: Rulebook) -> tuple[Sentence, ...]:
    discipline = book.discipline
    after = discipline.cautions_for_suspension
    if after == "no_limit":
        return (say("Yellows {add} to a suspension.", add="never add up"),)
    cleared = (
        "start again from none" if discipline.cautions_cleared != "never" else "still count"
    )
    bring = "brings" if after == 1 else "bring"
    return (
        say(
            "In a season {yellows} " + bring + " a suspension of {games}.",
            yellows=counted(after, "yellow"),
            games=counted(discipline.caution_games, "game"),
        ),
        say("In the play-offs yellows {cleared}.", cleared=cleared),
    )


def _red(book: Rulebook) -> tuple[Sentence, ...]:
    red = book.discipline.red
    meeting = "also waits for a meeting" if red.until_meeting else "need not wait for a meeting"
    return (
        say("A red brings a suspension of at least {games}.", games=counted(red.games, "game")),
        say("The player {meeting} with the coordinator.", meeting=meeting),
        say(
            "A second red in a season brings at least {games}.",
            games=counted(red.second_games, "game"),
        ),
    )


def _serving(book: Rulebook) -> tuple[Sentence, ...]:
    serving = book.discipline.serving
    rest = "is served next season" if serving.carries_over else "lapses"
    return (
        say("A suspension is served by {games}.", games=_SERVED[serving.games]),
        say("The player is suspended {where}.", where=_SUSPENDED_IN[serving.leagues]),
        say("What is left when the season ends {rest}.", rest=rest),
        say("If a suspended player plays, {breach}.", breach=_BREACH[serving.breach]),
    )


def _play_offs(book: Rulebook) -> tuple[Sentence, ...]:
    play_offs = book.play_offs
    if play_offs.qualify == "none":
        return (say("There are {no} play-offs.", no="no"),)
    apart = "do not meet" if play_offs.same_pool == "kept_apart_in_first_round" else "may meet"
    third = "is a game" if play_offs.third_place else "is no game"
    return (
        _qualified(book),
        say(
            "Teams of pools of unequal size are compared {how}.",
            how=_UNEQUAL[play_offs.unequal_pools],
        ),
        say("They are seeded by {how}.", how=_SEEDED[play_offs.seeded_by]),
        say("Teams of one pool {apart} in the first round.", apart=apart),
        say("There {third} for third place.", third=third),
        _games_needed(play_offs.games_played_least),
    )


def _qualified(book: Rulebook) -> Sentence:
    places = book.play_offs.places
    teams = "best team goes on" if places == 1 else f"best {places} go on"
    match book.play_offs.qualify:
        case "per_pool":
            return say("In each pool the {teams} to the play-offs.", teams=teams)
        case "overall":
            return say("Of all teams together the {teams} to the play-offs.", teams=teams)
        case "all" | "none":
            return say("{teams} go on to the play-offs.", teams="All teams")


def _games_needed(least: int) -> Sentence:
    if least == 0:
        return say("{any} player of the roster may play in them.", any="Any")
    return say(
        "A player may play in them after {games} of the season.", games=counted(least, "game")
    )


def _protests(book: Rulebook) -> tuple[Sentence, ...]:
    protests = book.protests
    if not protests.about:
        return (say("{nothing} may be protested.", nothing="Nothing"),)
    about = listed(tuple(_ABOUT[one] for one in protests.about), last="or")
    return (
        say(
            "A side may protest about {what}; about an official's judgement never.", what=about
        ),
        say(
            "{who} raises it {when}.",
            who=_RAISED_BY[protests.by],
            when=_RAISED[protests.raised],
        ),
        say(
            "It comes in writing by {time} on {day}.",
            time=f"{protests.written_by:%H:%M}",
            day=_WRITTEN[protests.written_day],
        ),
        *_protest_fee(book),
        say("If it is upheld, {then}.", then=_UPHELD[protests.upheld]),
    )


def _protest_fee(book: Rulebook) -> tuple[Sentence, ...]:
    protests = book.protests
    if protests.fee == 0:
        return (say("It costs {nothing}.", nothing="nothing"),)
    returned = "comes back" if protests.fee_returned else "does not come back"
    return (
        say("It costs a fee of {fee} in local currency.", fee=plain(protests.fee)),
        say("The fee {returned} if the protest is upheld.", returned=returned),
    )


def _resumption(book: Rulebook) -> tuple[Sentence, ...]:
    resumption = book.resumption
    level = "is a draw" if resumption.level_when_complete == "draw" else "is resumed"
    return (
        say(
            "A game that is broken off is complete once {part} been played.",
            part=_COMPLETE[resumption.complete_after],
        ),
        say("A complete game that is level {level}.", level=level),
        say("A game that is not complete {then}.", then=_BEFORE_THAT[resumption.before_that]),
        say("If one side is to blame, {then}.", then=_TO_BLAME[resumption.broken_off_by_side]),
    )


def _crew(book: Rulebook) -> tuple[Sentence, ...]:
    crew = book.crew
    roles = Counter(_ROLES[role] for role in crew.roles)
    people = "person" if crew.size == 1 else "people"
    return (
        say(
            "A game is worked by {size}: {roles}.",
            size=f"{crew.size} {people}",
            roles=listed(tuple(counted(number, role) for role, number in roles.items())),
        ),
        say("It may go ahead with {least}.", least=crew.least),
        say(_SYSTEM[crew.system], how=_HOW[crew.system]),
        say("Nobody works a game of a team they belong to."),
    )


WORDS: Final[Dictionary] = {
    **forfeits.WORDS,
    "ratings": Words(title="Sportsmanship ratings", says=_ratings),
    "ratings.given": Words(title="Ratings after a forfeit", says=_given),
    "discipline": Words(title="Yellows and suspensions", says=_discipline),
    "discipline.red": Words(title="After a red", says=_red),
    "discipline.serving": Words(title="Serving a suspension", says=_serving),
    **table_order.WORDS,
    "play_offs": Words(title="Play-offs", says=_play_offs),
    "protests": Words(title="Protests", says=_protests),
    "resumption": Words(title="Games broken off", says=_resumption),
    "crew": Words(title="Who works a game", says=_crew),
}
