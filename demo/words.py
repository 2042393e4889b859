"""Invents names: people of syllables, teams of words, and some that are hard on a program."""

from random import Random
from typing import Final

_FIRST: Final = [
    "An",
    "Bel",
    "Cor",
    "Dal",
    "Eri",
    "Fen",
    "Gal",
    "Hes",
    "Ivo",
    "Jun",
    "Kel",
    "Lor",
    "Mar",
    "Nel",
    "Oda",
    "Per",
    "Quin",
    "Ros",
    "Sal",
    "Tam",
    "Ulf",
    "Ves",
    "Wen",
    "Yar",
    "Zil",
]
_SECOND: Final = [
    "a",
    "e",
    "i",
    "o",
    "ana",
    "ela",
    "ika",
    "ora",
    "une",
    "ys",
    "en",
    "is",
    "omi",
]
_FAMILY: Final = [
    "Ald",
    "Bram",
    "Cas",
    "Dor",
    "Elm",
    "Farr",
    "Grev",
    "Hol",
    "Ister",
    "Jor",
    "Kast",
    "Lind",
    "Merr",
    "Nor",
    "Ost",
]
_PLACE: Final = [
    "bridge",
    "by",
    "combe",
    "dale",
    "ford",
    "gard",
    "haven",
    "holt",
    "low",
    "mere",
    "more",
    "quist",
    "stow",
    "vale",
]

HARD_NAMES: Final = (
    "Siobhán O'Brien-Müller III",
    "X",
    "נועם הר־זית",
    "ليلى بنت الوادي",
    "Zoë 🦊 Vandermere",
    "Ngọc Ánh Trần-Holt",
    "María José de la Cueva y Montesinos-Falkenberg",
    "D'Arcy d'Émile",
)
"""Names as people have them: accents, an apostrophe, one letter, right to left, a picture."""

TEAMS: Final = (
    "Overdue Books",
    "The Left Footnotes",
    "Q",
    "Gravel & Grace",
    "مجرة الكرة",
    "Second Breakfast",
    "Tuesday Regrets",
    "Foxes 🦊 United",
    "No Known Goalkeeper",
    "The Long Division",
    "Half-Time Oranges",
    "Ctrl-Alt-Defeat",
    "O'Malley's \"Own\" Goals",
    "Thursday's Children",
    "Umlaut Überholt",
    "Peer Pressure",
    "The Unreliable Narrators of Room One Hundred and Four, Reunited",
    "Lost Property",
    "Ad Hoc Committee",
    "Null Hypothesis",
    "Last Picked",
    "Slow Loris",
    "Muddy Margins",
    "Quiet Carriage",
    "Wrong Shoes",
)
FORMED: Final = "Found Objects"
"""The team that players who signed up alone make together."""

COLOURS: Final = [
    "red",
    "navy",
    "white",
    "green",
    "orange",
    "black",
    "yellow",
    "purple",
    "grey",
    "maroon",
    "lime",
    "pink",
    "brown",
    "gold",
    "silver",
    "indigo",
    "coral",
    "olive",
    "cream",
    "crimson",
    "aqua",
    "rust",
    "plum",
    "violet",
    "bronze",
    "amber",
]


def person_names(rng: Random, count: int) -> list[str]:
    """Return so many different names; the hard ones are among them."""
    found: dict[str, None] = dict.fromkeys(HARD_NAMES)
    while len(found) < count:
        first = rng.choice(_FIRST) + rng.choice(_SECOND)
        found[f"{first} {rng.choice(_FAMILY)}{rng.choice(_PLACE)}"] = None
    names = list(found)
    rng.shuffle(names)
    return names
