"""Says what the articles about equipment mean."""

from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import Dictionary, Sentence, Words, listed, say
from wholeball.rulebook.tables.people import NotWorn, Worn
from wholeball.rulebook.words.phrases import a_goalkeeper_plays

_WORN: Final[dict[Worn, str]] = {
    "shirt": "a shirt",
    "shorts": "shorts",
    "socks": "socks",
    "shinguards": "shinguards",
    "footwear": "shoes",
    "goalkeeper_colours": "colours of their own as goalkeeper",
    "number": "a number",
}
_NOT_WORN: Final[dict[NotWorn, str]] = {
    "jewellery": "jewellery",
    "metal_studs": "metal studs",
    "screw_in_studs": "screw-in studs",
    "hard_cast": "a hard cast",
    "watch": "a watch",
    "cap": "a cap",
    "pockets": "pockets",
    "electronics": "electronic devices",
}
_COLOURS: Final = {
    "two_sides_differ": "The two sides wear {colours}.",
    "bibs_for_one_side": "Where the colours are too alike, one side wears {colours}.",
}
_COLOUR_WORDS: Final = {
    "two_sides_differ": "colours that differ",
    "bibs_for_one_side": "bibs",
}
_RETURNS: Final = {
    "at_stoppage_after_check": "at a stoppage, once an official has checked it",
    "on_signal_after_check": "on the official's signal, once an official has checked it",
}
_EXCEPTION: Final = {
    "allowed_if_taped": "may be worn if it is taped",
    "allowed": "may be worn",
    "coordinator": "is worn only if the coordinator agrees",
}
_SIZE: Final = {
    "reasonable_protection": "Shinguards {size}; the official looks at them.",
    "player_responsible": "{size} for the size of their shinguards.",
}
_SIZE_WORDS: Final = {
    "reasonable_protection": "give reasonable protection",
    "player_responsible": "Players themselves answer",
}


def _equipment(book: Rulebook) -> tuple[Sentence, ...]:
    equipment = book.equipment
    required = listed(_required(book)) or "nothing in particular"
    forbidden = listed(tuple(_NOT_WORN[item] for item in equipment.forbidden), last="or")
    return (
        say("Each player wears {required}.", required=required),
        say("Nobody wears {forbidden}.", forbidden=forbidden or "what endangers anybody"),
        say(_COLOURS[equipment.colours], colours=_COLOUR_WORDS[equipment.colours]),
        say(
            "A player whose equipment is not right leaves to put it right and comes back "
            "{returns}.",
            returns=_RETURNS[equipment.returns],
        ),
    )


def _required(book: Rulebook) -> tuple[str, ...]:
    items = book.equipment.required
    if not a_goalkeeper_plays(book):
        items = tuple(item for item in items if item != "goalkeeper_colours")
    return tuple(_WORN[item] for item in items)


def _exceptions(book: Rulebook) -> tuple[Sentence, ...]:
    exceptions = book.equipment.exceptions
    covered = "may stay" if exceptions.covered_accessories else "comes off all the same"
    return (
        say("A medical identity tag {medical}.", medical=_EXCEPTION[exceptions.medical]),
        say("A religious item {religious}.", religious=_EXCEPTION[exceptions.religious]),
        say(
            "A plain head cover without hard parts {covers}.",
            covers=_EXCEPTION[exceptions.head_covers],
        ),
        say(
            "Anything else that is covered and endangers nobody {covered}.",
            covered=covered,
        ),
    )


def _shinguards(book: Rulebook) -> tuple[Sentence, ...]:
    size = book.equipment.shinguards.size
    return (say(_SIZE[size], size=_SIZE_WORDS[size]),)


WORDS: Final[Dictionary] = {
    "equipment": Words(title="Equipment", says=_equipment),
    "equipment.exceptions": Words(title="Exceptions", says=_exceptions),
    "equipment.shinguards": Words(title="Shinguards", says=_shinguards),
}
