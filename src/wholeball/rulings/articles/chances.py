"""Declares what an offence costs for the chance it took, and for being one of many: Law 12.3."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_mis = Writer("misconduct")
_YELLOW: Final = "caution"
_RED: Final = "send_off"
_NOT_MEANT: Final = {"handball.not_deliberate_with_penalty": "as_other_fouls"}
_ALLOWED: Final = {"slide_tackle.allowed": "yes"}
_FREE: Final = {"slide_tackle.allowed": "no", "slide_tackle.caution": "no"}
_YELLOW_ANYWAY: Final = {"slide_tackle.allowed": "no", "slide_tackle.caution": "yes"}
_DIRECT: Final = {"slide_tackle.then": "direct_free_kick"}
_INDIRECT: Final = {"slide_tackle.then": "not direct_free_kick"}
_SLIDES: Final = {"foul": "slide", "contact": "yes"}
_CLEANLY: Final = {"foul": "slide", "contact": "no"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """Offences that cost the same: where they are offences, and whom it is shown to.

    `less` is what a red displaces, the general claim aside. `is_yellow`: they are a yellow by
    themselves, so that nobody asks how often it was. `may_be_fair`: a penalty kick may follow
    an attempt to play the ball.
    """

    name: str
    when: Mapping[str, str]
    culprit: str = "player"
    given: Mapping[str, str] = field(default_factory=dict)
    less: str = ""
    is_yellow: bool = False
    may_be_fair: bool = False


_KINDS: Final = (
    _Kind(
        name="foul",
        when={"foul": "graded risky hold held_object impede hinder_keeper"},
        less="reckless",
        may_be_fair=True,
    ),
    _Kind(name="object", when={"foul": "object"}, culprit="anyone", less="reckless_object"),
    _Kind(name="hand", when={"seen": "handling", "who": "player"}),
    _Kind(name="keepers_hand", when={"seen": "handling", "who": "keeper"}, culprit="keeper"),
    _Kind(
        name="dive",
        when={"foul": "at_feet", "contact": "yes"},
        less="reckless",
        may_be_fair=True,
    ),
    _Kind(
        name="clean_dive",
        when={"foul": "at_feet", "contact": "no"},
        given={"goalkeeper.at_feet": "always_foul"},
        may_be_fair=True,
    ),
    *(
        _Kind(
            name=name,
            when=_SLIDES,
            given=given,
            less=less,
            is_yellow=given is _YELLOW_ANYWAY,
            may_be_fair=True,
        )
        for name, given, less in (
            ("slide", _ALLOWED, "reckless"),
            ("forbidden_slide", _FREE, "reckless"),
            ("yellow_slide", _YELLOW_ANYWAY, "reckless slides"),
        )
    ),
    *(
        _Kind(
            name=name,
            when=_CLEANLY,
            given={**given, **then},
            less="slides" if given is _YELLOW_ANYWAY else "",
            is_yellow=given is _YELLOW_ANYWAY,
            may_be_fair=then is _DIRECT,
        )
        for name, given, then in (
            ("clean_slide", _FREE, _DIRECT),
            ("clean_slide_for_less", _FREE, _INDIRECT),
            ("clean_yellow_slide", _YELLOW_ANYWAY, _DIRECT),
            ("clean_yellow_slide_for_less", _YELLOW_ANYWAY, _INDIRECT),
        )
    ),
)


def _shown_for(kind: _Kind, name: str, says: str, fact: Mapping[str, str]) -> Article:
    return _mis(
        f"{name}_{kind.name}",
        says,
        "Law 12.3",
        when={**fact, **kind.when},
        then={"misconduct": _YELLOW, "culprit": kind.culprit},
        over="no_card",
        given=kind.given,
    )


def _obvious(kind: _Kind) -> Iterator[Article]:
    """Yield the red for an obvious chance, and the yellow that it is with advantage."""
    yield _mis(
        f"obvious_{kind.name}",
        "Taking an obvious chance of a goal is a red.",
        "Law 12.3",
        when={"chance": "obvious", **kind.when},
        then={"misconduct": _RED, "culprit": kind.culprit},
        over=f"no_card {kind.less}",
        given=kind.given,
    )
    yellow = {"misconduct": _YELLOW, "culprit": kind.culprit}
    yield _mis(
        f"obvious_{kind.name}_with_advantage",
        "With advantage it is a yellow.",
        "Law 12.3",
        when={"chance": "obvious", "advantage": "yes quick", **kind.when},
        then={} if kind.is_yellow else yellow,
        over=f"obvious_{kind.name} {'' if kind.is_yellow else 'no_card'}",
        given=kind.given,
    )


def _not_meant(kind: _Kind, chance: str) -> Article:
    """Return what a hand that was not meant costs with a penalty kick: one step less.

    A goalkeeper's hand outside the area brings a penalty kick only where a house says so.
    """
    own = {"goalkeeper.hands_outside.then": "penalty_kick"} if kind.culprit == "keeper" else {}
    is_obvious = chance == "obvious"
    return _mis(
        f"{chance}_{kind.name}_not_meant",
        "With a penalty kick for a hand that was not meant it is a yellow."
        if is_obvious
        else "Nor is there one for a hand that was not meant, with a penalty kick.",
        "Law 12.3",
        when={
            "arm": "bigger",
            "who": kind.when["who"],
            "chance": chance,
            "restart": "penalty_kick",
        },
        then={"misconduct": _YELLOW, "culprit": kind.culprit} if is_obvious else {},
        over=f"{'no_card ' if is_obvious else ''}{chance}_{kind.name}",
        path="handball",
        given={**_NOT_MEANT, **own},
    )


_BY_HAND: Final = tuple(kind for kind in _KINDS if kind.when.get("seen") == "handling")
_ELSE_FREE: Final = tuple(kind for kind in _KINDS if not kind.is_yellow)
_PROMISING: Final = " ".join(f"promising_{kind.name}" for kind in _ELSE_FREE)
_PROMISING_FAIR: Final = " ".join(
    f"promising_{kind.name}" for kind in _ELSE_FREE if kind.may_be_fair
)
_OBVIOUS_FAIR: Final = " ".join(f"obvious_{kind.name}" for kind in _KINDS if kind.may_be_fair)

CHANCES: Final[tuple[Article, ...]] = (
    *(
        _shown_for(
            kind,
            "breaks_laws_often",
            "Breaking the Laws again and again is a yellow.",
            {"often": "yes"},
        )
        for kind in _ELSE_FREE
    ),
    *(
        _shown_for(
            kind,
            "promising",
            "Stopping a promising attack is a yellow.",
            {"chance": "promising"},
        )
        for kind in _ELSE_FREE
    ),
    _mis(
        "promising_fair_try",
        "With a penalty kick for an attempt to play the ball there is no yellow for it.",
        "Law 12.3",
        when={"chance": "promising", "fair_try": "yes"},
        over=_PROMISING_FAIR,
    ),
    _mis(
        "promising_with_advantage",
        "Advantage takes the yellow for a promising attack away.",
        "Law 12.3",
        when={"chance": "promising", "advantage": "yes"},
        over=_PROMISING,
        path="advantage",
        given={"advantage.cancels_caution": "yes"},
    ),
    _mis(
        "promising_with_quick_kick",
        "So does a quick free kick.",
        "Law 12.3",
        when={"chance": "promising", "advantage": "quick"},
        over=_PROMISING,
        path="advantage",
        given={"advantage.quick_kick_cancels_caution": "yes"},
    ),
    *(_not_meant(kind, "promising") for kind in _BY_HAND),
    *(article for kind in _KINDS for article in _obvious(kind)),
    _mis(
        "obvious_fair_try",
        "With a penalty kick for an attempt to play the ball it is a yellow.",
        "Law 12.3",
        when={"chance": "obvious", "fair_try": "yes"},
        then={"misconduct": _YELLOW, "culprit": "player"},
        over=f"no_card {_OBVIOUS_FAIR}",
    ),
    *(_not_meant(kind, "obvious") for kind in _BY_HAND),
    *(
        _mis(
            f"{chance}_second_touch_{who}",
            f"A second touch that takes {words} is a {color}.",
            "Law 12.3",
            when={"seen": "form", "chance": chance, "who": who},
            then={"misconduct": shown, "culprit": who},
            over="no_card",
        )
        for chance, words, color, shown in (
            ("promising", "a promising attack", "yellow", _YELLOW),
            ("obvious", "an obvious chance", "red", _RED),
        )
        for who in ("player", "keeper")
    ),
)
