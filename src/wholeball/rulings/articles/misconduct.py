"""Declares what is a yellow, a red or a warning: Law 12.3."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_mis = Writer("misconduct")
_YELLOW: Final = "caution"
_RED: Final = "send_off"


def _shows(name: str, says: str, when: dict[str, str], card: str, culprit: str) -> Article:
    return _mis(
        name,
        says,
        "Law 12.3",
        when=when,
        then={"misconduct": card, "culprit": culprit},
        over="no_card",
    )


_KEEPER: Final = "penalty.goalkeeper"

MISCONDUCT: Final[tuple[Article, ...]] = (
    _mis(
        "no_card",
        "Most offences cost neither yellow nor red.",
        "Law 12.3",
        then={"misconduct": "none", "culprit": "nobody"},
    ),
    _shows(
        "reckless",
        "Recklessness is a yellow.",
        {"degree": "reckless", "foul": "not object"},
        _YELLOW,
        "player",
    ),
    _mis(
        "forceful",
        "Excessive force is a red.",
        "Law 12.3",
        when={"degree": "excessive", "foul": "not object"},
        then={"misconduct": _RED, "culprit": "player"},
        over="no_card slides",
    ),
    _shows(
        "reckless_object",
        "Throwing recklessly is a yellow.",
        {"degree": "reckless", "foul": "object"},
        _YELLOW,
        "anyone",
    ),
    _shows(
        "forceful_object",
        "Throwing with excessive force is a red.",
        {"degree": "excessive", "foul": "object"},
        _RED,
        "anyone",
    ),
    _shows(
        "violence",
        "Violence, biting and spitting are a red.",
        {"foul": "violent bite_spit"},
        _RED,
        "anyone",
    ),
    _mis(
        "slides",
        "Sliding is a yellow here.",
        "common practice, no source",
        when={"moment": "open", "foul": "slide"},
        then={"misconduct": _YELLOW, "culprit": "player"},
        over="no_card",
        path="slide_tackle",
        given={"slide_tackle.allowed": "no", "slide_tackle.caution": "yes"},
    ),
    _mis(
        "keeper_slides",
        "A goalkeeper in the own penalty area may slide.",
        "common practice, no source",
        when={"foul": "slide", "who": "keeper", "zone": "own_area"},
        over="slides",
        path="slide_tackle",
        given={
            "slide_tackle.allowed": "no",
            "slide_tackle.caution": "yes",
            "slide_tackle.goalkeeper_exempt": "yes",
        },
    ),
    _shows(
        "hand_to_score",
        "Trying to score by hand is a yellow.",
        {"arm": "to_score"},
        _YELLOW,
        "player",
    ),
    _shows(
        "hand_in_vain",
        "Trying in vain to stop a goal by hand is a yellow.",
        {"arm": "deliberate", "net": "own"},
        _YELLOW,
        "player",
    ),
    _shows(
        "yellow_conduct",
        "Dissent, pretending, delaying, keeping too near and other unsporting acts are a yellow.",
        {
            "conduct": "dissent simulation delay distance blocks_quick persistent too_much_joy "
            "slow_off unsporting"
        },
        _YELLOW,
        "anyone",
    ),
    _mis(
        "crosses_official_line",
        "Crossing the line that the official set is a yellow.",
        "Law 12.3",
        when={"conduct": "crossed_line"},
        then={"misconduct": _YELLOW, "culprit": "anyone"},
        over="no_card",
        path="free_kick.crossing",
        given={"free_kick.crossing.caution": "yes"},
    ),
    _shows(
        "trick",
        "The trick costs the one who began it a yellow.",
        {"conduct": "trick"},
        _YELLOW,
        "initiator",
    ),
    _shows(
        "red_conduct",
        "Offensive, insulting or abusive words or signs are a red.",
        {"conduct": "abuse"},
        _RED,
        "anyone",
    ),
    _shows(
        "late_red",
        "The red for what came before the advantage is shown.",
        {"conduct": "plays_before_red"},
        _RED,
        "player",
    ),
    _shows(
        "minor_breach",
        "A minor breach in the technical area is a warning.",
        {"conduct": "minor"},
        "warning",
        "anyone",
    ),
    _shows(
        "extra_person",
        "Who comes on without being allowed to is shown yellow.",
        {"person": "extra", "effect": "none"},
        _YELLOW,
        "anyone",
    ),
    _shows(
        "substitute_interferes",
        "A substitute who comes on and interferes is shown yellow.",
        {"bench": "no"},
        _YELLOW,
        "substitute",
    ),
    _mis(
        "team_official_interferes",
        "A team official who comes on and interferes with play, an opponent or a match official "
        "is shown red.",
        "Law 12.3, from memory",
        when={"bench": "yes"},
        then={"misconduct": _RED, "culprit": "team_official"},
        over="no_card",
    ),
    _mis(
        "leaving_ball_yellow",
        "So is who touches a ball that is leaving the field.",
        "Law 3.7",
        when={"effect": "leaving"},
        then={"misconduct": _YELLOW, "culprit": "anyone"},
        over="no_card",
        path="extra_persons",
        given={"extra_persons.touch_leaving_ball": "free_kick_and_caution"},
    ),
    _shows(
        "crosses_without_permission",
        "Leaving or coming on without permission is a yellow.",
        {"move": "leaves offside_trap enters"},
        _YELLOW,
        "player",
    ),
    _shows(
        "swaps_unannounced",
        "An unannounced change of goalkeepers costs both a yellow.",
        {"move": "swap"},
        _YELLOW,
        "both",
    ),
    _shows(
        "kicker_cheats",
        "A feint after the run-up, or kicking for somebody else, is a yellow.",
        {"flaw": "feint wrong_taker", "kind": "penalty_kick"},
        _YELLOW,
        "kicker",
    ),
    _shows(
        "delays_by_place",
        "Taking it from the wrong place on purpose is a yellow.",
        {"flaw": "place_to_delay"},
        _YELLOW,
        "kicker",
    ),
    _shows(
        "hinders_thrower",
        "Keeping too near the thrower is a yellow.",
        {"seen": "near", "kind": "throw_in"},
        _YELLOW,
        "other_player",
    ),
    *(
        _mis(
            f"near_drop_{by}",
            "Keeping too near a dropped ball is a yellow.",
            "Law 12.3",
            when={"kind": "dropped_ball", "by": by},
            then={"misconduct": _YELLOW, "culprit": culprit},
            over="no_card",
            path="dropped_ball",
            given={"dropped_ball.distance": "some", "dropped_ball.too_close": "caution"},
        )
        for by, culprit in (("own", "player"), ("opp", "other_player"))
    ),
    *(
        _mis(
            f"keeper_off_line_{value}",
            f"A goalkeeper's first offence that brings a retake is a {words}.",
            "Law 14.2",
            when={"by": "keeper", "restart": "retake"},
            then={"misconduct": value, "culprit": "other_keeper"},
            over="no_card",
            path=_KEEPER,
            given={f"{_KEEPER}.first_offence": value},
        )
        for value, words in (("warning", "warning"), ("caution", "yellow"))
    ),
    _mis(
        "kicker_with_keeper",
        "If both offend, the kicker is shown yellow.",
        "Law 14.2",
        when={"by": "keeper_and_taker", "restart": "indirect_free_kick"},
        then={"misconduct": _YELLOW, "culprit": "kicker"},
        over="no_card",
        path=_KEEPER,
        given={f"{_KEEPER}.with_kicker": "not retake"},
    ),
    _mis(
        "keeper_with_kicker",
        "If both offend and it is taken again, both are shown yellow.",
        "Law 14.2",
        when={"by": "keeper_and_taker", "restart": "retake"},
        then={"misconduct": _YELLOW, "culprit": "kicker_and_keeper"},
        over="no_card",
        path=_KEEPER,
        given={f"{_KEEPER}.with_kicker": "not kicker_penalised"},
    ),
)
