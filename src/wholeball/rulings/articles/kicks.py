"""Declares who may take a kick from the mark, and what stands for who cannot: Law 10."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.matters import beside, says_that

_TAKERS: Final = "kicks.takers"
_MAY_KICK: Final = (
    ("on_field", "yes", "who was on the field at the end may kick"),
    ("briefly_off", "yes", "who was off only briefly at the end may kick"),
    ("sent_off", "no", "who was sent off may not kick"),
)

KICKS: Final[tuple[Article, ...]] = (
    beside(
        "too_few_in_kicks",
        "Kicks from the mark go on with however few there are.",
        "Law 10.3",
        when={"stands": "too_few_in_kicks"},
        then=says_that(resumes="kicks", allowed="yes"),
        path="kicks",
    ),
    *(
        beside(
            f"unequal_{rule}",
            says,
            "Law 10.3",
            when={"stands": "unequal"},
            then=says_that(resumes="kicks", allowed=allowed),
            path=_TAKERS,
            given={f"{_TAKERS}.equal_numbers": rule},
        )
        for rule, allowed, says in (
            ("larger_side_reduces", "after_reducing", "The larger side leaves players out."),
            ("not_asked", "yes", "Nobody asks for equal numbers."),
        )
    ),
    *(
        beside(
            f"may_kick_{who}",
            f"{says[0].upper()}{says[1:]}.",
            "Law 10.3",
            when={"kicker_is": who},
            then=says_that(resumes="kicks", allowed=allowed),
            path=_TAKERS,
        )
        for who, allowed, says in _MAY_KICK
    ),
    *(
        beside(
            f"substitute_kicks_{who}",
            says,
            "Law 10.3",
            when={"kicker_is": "substitute"},
            then=says_that(resumes="kicks", allowed=allowed),
            path=_TAKERS,
            given={f"{_TAKERS}.who": who},
        )
        for who, allowed, says in (
            ("on_field_at_end", "no", "Who was not on the field at the end may not kick."),
            ("whole_roster_present", "yes", "Everybody on the roster who is there may kick."),
        )
    ),
    beside(
        "kicks_twice_too_early",
        "Nobody kicks again before all of the side who may have kicked.",
        "Law 10.3",
        when={"kicker_is": "has_kicked"},
        then=says_that(resumes="kicks", allowed="no"),
        path=_TAKERS,
    ),
    *(
        beside(
            f"unable_keeper_changes_{left}",
            says,
            "Law 10.3",
            when={"changes_left": left},
            then=says_that(resumes="kicks", replaced_by=by),
            path="kicks",
        )
        for left, by, says in (
            (
                "yes",
                "substitute_or_left_out",
                "A substitute or a player left out takes the gloves.",
            ),
            ("no", "left_out", "A player left out, or one of the others, takes the gloves."),
        )
    ),
    beside(
        "unable_kicker",
        "Nobody replaces another player in the kicks from the mark.",
        "Law 10.3",
        when={"unable_is": "other"},
        then=says_that(resumes="kicks", replaced_by="nobody"),
        path="kicks",
    ),
    beside(
        "order_changes",
        "The order may change from one round to the next.",
        "Law 10.3",
        when={"matter": "order"},
        then=says_that(resumes="kicks", allowed="yes"),
        path=_TAKERS,
    ),
    beside(
        "two_tosses",
        "One toss decides the goal, a second who kicks first.",
        "Law 10.3",
        when={"matter": "tosses"},
        then=says_that(resumes="kicks", allowed="yes"),
        path="kicks",
    ),
    beside(
        "ways_to_win",
        "Away goals, two equal periods of at most 15 minutes, kicks from the mark, or several "
        "of these may decide a level game.",
        "Law 10.2",
        when={"matter": "winner"},
        then=says_that(resumes="kicks", allowed="yes"),
        path="overtime",
    ),
)
