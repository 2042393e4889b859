"""Declares fouls: Law 12."""

from collections.abc import Iterable, Mapping
from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_BODY: Final = "graded violent bite_spit"
_OTHERS: Final = "opponent official"


def direct(
    name: str,
    what: str,
    when: Mapping[str, str],
    *,
    path: str | None = None,
    given: Mapping[str, str] | None = None,
    then: Mapping[str, str] | None = None,
) -> Iterable[Article]:
    """Return the articles of a direct-kick offence, one for each place where it can happen.

    Where it was is asked only if the ball was in play and nobody let play go on.
    """
    for zone, outcome, where, more in (
        ("elsewhere", "direct_free_kick", "is a direct free kick", then or {}),
        ("own_area", "penalty_kick", "in the own penalty area is a penalty kick", {}),
        (
            "off",
            "direct_free_kick",
            "off the field is a direct free kick on the line",
            {"basis": "boundary"},
        ),
        ("off_by_area", "penalty_kick", "off the field by the own area is a penalty kick", {}),
    ):
        if zone.startswith("off") and path is not None:
            continue
        yield _play(
            f"{name}_{zone}",
            f"{what} {where}.",
            "Laws 12.1 and 13.2",
            when={**when, "zone": zone},
            outcome=outcome,
            then=more,
            path=path,
            given=given,
        )


def _indirect(name: str, what: str, when: Mapping[str, str]) -> Iterable[Article]:
    for where, zone, more in (
        ("", "elsewhere own_area", {}),
        ("_off", "off off_by_area", {"basis": "boundary"}),
    ):
        yield _play(
            f"{name}{where}",
            f"{what} is an indirect free kick{' on the line' if where else ''}.",
            "Laws 12.2 and 13.2",
            when={**when, "zone": zone},
            outcome="indirect_free_kick",
            then=more,
        )


_SLIDE: Final = "slide_tackle"
_FEET: Final = "goalkeeper.at_feet"

FOULS: Final[tuple[Article, ...]] = (
    *direct(
        "body_foul",
        "A careless, reckless or forceful charge, jump, kick, push, strike, tackle or trip, "
        "a bite or spitting",
        {"foul": _BODY, "against": _OTHERS},
    ),
    *(
        article
        for article in direct(
            "foul_on_own_side",
            "The same against the own side",
            {"foul": _BODY, "against": "own_side"},
        )
        if not article.name.endswith(("_off", "_off_by_area"))
    ),
    _play(
        "foul_on_own_side_off",
        "The same against the own side off the field is an indirect free kick on the line.",
        "Law 12.4",
        when={"against": "own_side", "zone": "off off_by_area"},
        outcome="indirect_free_kick",
        then={"basis": "boundary"},
    ),
    _play(
        "foul_on_stranger",
        "An offence against somebody who belongs to neither side brings a dropped ball.",
        "Law 12.4",
        when={"against": "stranger", "advantage": "no"},
        outcome="dropped_ball",
        path="dropped_ball",
    ),
    *direct(
        "holding",
        "Holding somebody, or touching the ball with something held,",
        {"foul": "hold held_object"},
    ),
    *direct(
        "contact_foul",
        "Endangering or impeding somebody with contact",
        {"foul": "risky impede", "contact": "yes"},
    ),
    *direct(
        "object",
        "Throwing an object or the ball",
        {"foul": "object", "against": f"{_OTHERS} the_ball"},
        then={"basis": "struck"},
    ),
    *(
        article
        for article in direct(
            "object_at_own_side",
            "Throwing an object at the own side",
            {"foul": "object", "against": "own_side"},
            then={"basis": "struck"},
        )
        if not article.name.endswith(("_off", "_off_by_area"))
    ),
    *_indirect(
        "indirect_foul",
        "Endangering or impeding somebody without contact",
        {"foul": "risky impede", "contact": "no"},
    ),
    *_indirect(
        "keeper_hindered",
        "Keeping a goalkeeper from releasing the ball",
        {"foul": "hinder_keeper"},
    ),
    _play(
        "shielding",
        "Shielding a ball within playing distance is part of the game.",
        "Law 12.1",
        when={"moment": "open", "foul": "shield"},
        outcome="play_on",
    ),
    _play(
        "advantage",
        "Play goes on if that is better for the side that was offended against.",
        "Law 5.3",
        when={"seen": "foul handling", "advantage": "yes quick"},
        outcome="play_on",
        path="advantage",
    ),
    _play(
        "foul_out_of_play",
        "An offence while the ball is not in play does not change the restart.",
        "Laws 8 and 12.4",
        when={"moment": "taking dead", "seen": "foul"},
        outcome="unchanged",
    ),
    *direct(
        "keeper_at_feet",
        "Going down at an opponent's feet with contact",
        {"foul": "at_feet", "contact": "yes"},
        path="goalkeeper",
    ),
    _play(
        "keeper_at_feet_clean",
        "A goalkeeper who goes for the ball without contact plays on.",
        "Law 12.1",
        when={"foul": "at_feet", "contact": "no", "advantage": "no"},
        outcome="play_on",
        path="goalkeeper",
        given={_FEET: "ordinary_foul"},
    ),
    *(
        article
        for article in direct(
            "keeper_at_feet_always",
            "Going down at an opponent's feet, contact or not,",
            {"foul": "at_feet", "contact": "no"},
            path="goalkeeper",
            given={_FEET: "always_foul"},
        )
    ),
    *direct(
        "slide_contact",
        "A slide tackle with contact",
        {"foul": "slide", "contact": "yes"},
        path=_SLIDE,
    ),
    _play(
        "slide_allowed",
        "A slide tackle without contact is judged like any other tackle.",
        "Law 12.1",
        when={"foul": "slide", "contact": "no", "advantage": "no"},
        outcome="play_on",
        path=_SLIDE,
        given={"slide_tackle.allowed": "yes"},
    ),
    _play(
        "slide_forbidden",
        "Sliding for the ball near an opponent is an offence here.",
        "common practice, no source",
        when={"foul": "slide", "contact": "no", "advantage": "no"},
        outcome="slide_tackle.then",
        path=_SLIDE,
        given={"slide_tackle.allowed": "no", "slide_tackle.then": "not direct_free_kick"},
    ),
    *direct(
        "slide_forbidden",
        "Sliding for the ball near an opponent",
        {"foul": "slide", "contact": "no"},
        path=_SLIDE,
        given={"slide_tackle.allowed": "no", "slide_tackle.then": "direct_free_kick"},
    ),
    _play(
        "slide_by_keeper",
        "A goalkeeper in the own penalty area may slide.",
        "common practice, no source",
        when={"foul": "slide", "who": "keeper", "zone": "own_area"},
        outcome="play_on",
        over="slide_forbidden slide_forbidden_own_area",
        path=_SLIDE,
        given={"slide_tackle.allowed": "no", "slide_tackle.goalkeeper_exempt": "yes"},
    ),
)
