"""Says what the articles about players, rosters, check-in and substitutes mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, counted, listed, say
from wholeball.rulebook.value import Most
from wholeball.rulebook.words import equipment, substitutes

_GOALKEEPER: Final = {
    "required": "One of them {goalkeeper} a goalkeeper.",
    "optional": "One of them {goalkeeper} a goalkeeper.",
    "none": "{goalkeeper} of them is a goalkeeper.",
}
_IS_GOALKEEPER: Final = {"required": "is", "optional": "may be", "none": "None"}
_SHORT: Final = {
    "plays_short": "plays with fewer until it has them",
    "forfeits": "forfeits",
}
_COUNTED: Final = {
    "club": "club players",
    "varsity": "varsity players",
    "former_varsity": "former varsity players",
    "professional": "professionals",
}
_WITHIN: Final = {
    "league": "the whole league",
    "division": "one division",
    "block": "one block",
}
_BOUND: Final = {
    "first_game_played": "the first game played for it",
    "signing": "signing for it",
}
_ADDED: Final = {
    "play_offs": "the play-offs begin",
    "last_regular_week": "the last week before the play-offs ends",
    "second_game": "the team's second game begins",
    "always": "the season ends",
}
_WHO: Final = {
    "students": "students",
    "staff": "staff",
    "faculty": "faculty",
    "alumni": "alumni",
    "guests": "guests",
}
_DOCUMENT: Final = {
    "university_id": "Each player shows {document} at check-in.",
    "photo_id": "Each player shows {document} at check-in.",
    "none": "Players show {document} at check-in.",
}
_DOCUMENT_NAMES: Final = {
    "university_id": "a university ID",
    "photo_id": "an ID with a photo",
    "none": "nothing",
}
_FOUND: Final = {
    "forfeit": "the game is a forfeit",
    "result_stands": "the result stands",
    "coordinator": "the coordinator decides what the game counts as",
}
_APPROACHES: Final = {
    "not_used": "Nobody argues with the official; {who} may ask about a decision.",
    "optional": "Where the official says so before the game, {who} may come to the official.",
    "compulsory": "{who} may come to the official about a decision.",
}
_WHO_APPROACHES: Final = {
    "not_used": "any player",
    "optional": "only the captain",
    "compulsory": "Only the captain",
}
_LATE: Final = {
    "until_the_end": "until the game ends",
    "until_half_time": "until half-time ends",
    "not_after_kick_off": "until the kick-off, not after it",
}
_LATE_ENTERS: Final = {
    "next_stoppage": "at the next stoppage",
    "next_substitution": "at the next chance to substitute",
}


def _sides(book: Rulebook) -> tuple[Sentence, ...]:
    sides = book.sides
    return (
        say("A side has at most {most} on the field.", most=counted(sides.on_field, "player")),
        say(
            _GOALKEEPER[sides.goalkeeper],
            goalkeeper=_IS_GOALKEEPER[sides.goalkeeper],
        ),
        say("It needs {least} to start.", least=sides.minimum_to_start),
        say("With fewer than {least} it does not go on.", least=sides.minimum_to_continue),
    )


def _mixed(book: Rulebook) -> tuple[Sentence, ...]:
    mixed = book.sides.mixed
    numbers = (
        *_at_least(mixed.women_least, "woman", "women"),
        *_at_least(mixed.men_least, "man", "men"),
        *_difference(mixed.difference_most),
    )
    if not numbers:
        return (say("{no} number of any gender is asked for.", no="No"),)
    counts = "counts" if mixed.goalkeeper_counts else "does not count"
    return (
        *numbers,
        say("The goalkeeper {counts} towards these numbers.", counts=counts),
        say("A side that lacks a gender {short}.", short=_SHORT[mixed.short]),
        say("Each player says in private which gender counts; nobody asks for proof."),
    )


def _at_least(least: int, one: str, many: str) -> tuple[Sentence, ...]:
    if least == 0:
        return ()
    return (say("A side has at least {least} on the field.", least=counted(least, one, many)),)


def _difference(most: Most) -> tuple[Sentence, ...]:
    if most == "no_limit":
        return ()
    if most == 0:
        return (say("Women and men on the field are {most} many.", most="equally"),)
    return (say("One gender outnumbers the other by at most {most}.", most=most),)


def _roster(book: Rulebook) -> tuple[Sentence, ...]:
    roster = book.roster
    within = _WITHIN[roster.teams_each_in]
    return (
        _roster_size(roster.minimum, roster.maximum),
        say(
            "One person plays for at most {teams} in {within}.",
            teams=counted(roster.teams_each, "team"),
            within=within,
        ),
        say("What binds a player to a team is {bound}.", bound=_BOUND[roster.bound_by]),
        say("Players may be added until {until}.", until=_ADDED[roster.additions_until]),
        _added_before(roster.additions_hours_before),
    )


def _roster_size(minimum: int, maximum: Most) -> Sentence:
    least = (f"at least {counted(minimum, 'player')}",) if minimum else ()
    most = () if maximum == "no_limit" else (f"at most {counted(maximum, 'player')}",)
    size = listed((*least, *most)) or "any number of players"
    return say("A roster has {size}.", size=size)


def _added_before(hours: int) -> Sentence:
    if hours == 0:
        return say("A player who is added may play {when}.", when="at once")
    return say(
        "A player who is added {hours} or more before a game may play in it.",
        hours=counted(hours, "hour"),
    )


def _club_players(book: Rulebook) -> tuple[Sentence, ...]:
    club = book.roster.club_players
    is_open = club.most == "no_limit" and club.on_field_most == "no_limit"
    if is_open or not club.counted:
        return (say("Club and varsity players are {not} limited.", **{"not": "not"}),)
    who = listed(tuple(_COUNTED[kind] for kind in club.counted))
    most = "any number" if club.most == "no_limit" else f"at most {club.most}"
    at_once = (
        "any number" if club.on_field_most == "no_limit" else f"at most {club.on_field_most}"
    )
    return (
        say("Of {who} a roster has {most}.", who=who, most=most),
        say("On the field at once there may be {most} of them.", most=at_once),
    )


def _eligibility(book: Rulebook) -> tuple[Sentence, ...]:
    eligibility = book.eligibility
    waiver = "signs a waiver" if eligibility.waiver else "needs no waiver"
    return (
        say(
            "These may sign up: {who}.", who=listed(tuple(_WHO[one] for one in eligibility.who))
        ),
        say("Each player {waiver} before playing.", waiver=waiver),
        say(
            "A player who is blocked at the gate does not play; the coordinator knows why, "
            "and the gate does not say."
        ),
    )


def _identification(book: Rulebook) -> tuple[Sentence, ...]:
    shown = book.eligibility.identification
    document = say(_DOCUMENT[shown.document], document=_DOCUMENT_NAMES[shown.document])
    if shown.document == "none":
        return (document,)
    return (document, _forgotten(shown.forgotten_most))


def _forgotten(most: Most) -> Sentence:
    match most:
        case "no_limit":
            return say(
                "Whoever forgets it plays if the supervisor knows them, {often}.",
                often="however often",
            )
        case 0:
            return say("Whoever forgets it {may} play.", may="does not")
        case _:
            return say(
                "Whoever forgets it plays if the supervisor knows them, {often} a term.",
                often="once" if most == 1 else f"at most {most} times",
            )


def _found_later(book: Rulebook) -> tuple[Sentence, ...]:
    found = book.eligibility.found_later
    days = found.discovered_within_days
    when = f"within {counted(days, 'day')} of a game" if days else "on the day of a game"
    return (
        say(
            "If it is found {when} that a player was not eligible, {then}.",
            when=when,
            then=_FOUND[found.then],
        ),
        say("Yellow and red shown in that game stand."),
    )


def _captain(book: Rulebook) -> tuple[Sentence, ...]:
    captain = book.captain
    wears = "wears" if captain.armband == "required" else "may wear"
    approaches = captain.only_captain_approaches
    return (
        say("The captain {wears} an armband.", wears=wears),
        say(_APPROACHES[approaches], who=_WHO_APPROACHES[approaches]),
    )


def _check_in(book: Rulebook) -> tuple[Sentence, ...]:
    check_in = book.check_in
    minutes = check_in.opens_minutes_before
    opens = f"{counted(minutes, 'minute')} before" if minutes else "at"
    return (
        say("Check-in opens {opens} the start.", opens=opens),
        say("A player may check in {late}.", late=_LATE[check_in.late]),
        say(
            "Whoever checks in late enters {enters}.", enters=_LATE_ENTERS[check_in.late_enters]
        ),
    )


WORDS: Final[Dictionary] = {
    "sides": Words(title="How many play", says=_sides),
    "sides.mixed": Words(title="Mixed sides", says=_mixed),
    "roster": Words(title="Rosters", says=_roster),
    "roster.club_players": Words(title="Club and varsity players", says=_club_players),
    "eligibility": Words(title="Who may play", says=_eligibility),
    "eligibility.identification": Words(title="ID at check-in", says=_identification),
    "eligibility.found_later": Words(
        title="An ineligible player found later", says=_found_later
    ),
    **equipment.WORDS,
    "captain": Words(title="The captain", says=_captain),
    "check_in": Words(title="Check-in", says=_check_in),
    **substitutes.WORDS,
}
