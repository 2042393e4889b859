"""Declares offside: Law 11."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_PLAYED: Final = {"offside.played": "yes"}
_AT_FIRST: Final = {**_PLAYED, "offside.goalkeeper_throw": "first_contact"}
_AT_LAST: Final = {**_PLAYED, "offside.goalkeeper_throw": "last_contact"}
_HALFWAY: Final = {**_PLAYED, "offside.from_line": "halfway_line"}
_AREA: Final = {**_PLAYED, "offside.from_line": "penalty_area_line"}
_OFFSIDE_IF: Final = (
    ("", "yes", _PLAYED),
    ("short_", "short", _HALFWAY),
    ("at_first_", "at_first", _AT_FIRST),
    ("at_last_", "at_last", _AT_LAST),
)
"""Positions that are an offside position, each with what a rulebook must say for that."""
_ONSIDE_IF: Final = (
    (
        "not_ahead",
        "no",
        _PLAYED,
        "Law 11.1",
        "Nobody is offside who was not in an offside position",
    ),
    (
        "short",
        "short",
        _AREA,
        "common practice, no source",
        "Offside counts only past the penalty-area line here",
    ),
    (
        "ahead_at_first",
        "at_first",
        _AT_LAST,
        "Law 11.1",
        "At a goalkeeper's throw the last contact with the ball counts",
    ),
    (
        "ahead_at_last",
        "at_last",
        _AT_FIRST,
        "Law 11.1",
        "At a goalkeeper's throw the first contact with the ball counts",
    ),
)
"""Positions that are none, likewise."""
_EXEMPT: Final = "throw_in goal_kick corner_kick"
_INNOCENT: Final = "none opponent_played opponent_handled"
_ENDS: Final = (
    ("no", "play_on", "play goes on"),
    ("yes", "goal_for_a", "the goal counts"),
)

OFFSIDE: Final[tuple[Article, ...]] = (
    *(
        article
        for scored, outcome, words in _ENDS
        for article in (
            _play(
                f"offside_not_played_{scored}",
                f"Offside is not played here: {words}.",
                "common practice, no source",
                when={"scored": scored},
                outcome=outcome,
                path="offside",
                given={"offside.played": "no"},
            ),
            *(
                _play(
                    f"{name}_{scored}",
                    f"{says}: {words}.",
                    law,
                    when={"ahead": ahead, "scored": scored},
                    outcome=outcome,
                    path="offside",
                    given=given,
                )
                for name, ahead, given, law, says in _ONSIDE_IF
            ),
            *(
                _play(
                    f"ahead_{name}without_part_{scored}",
                    "An offside position alone, or a ball that an opponent played on purpose, "
                    f"is no offence: {words}.",
                    "Law 11.2",
                    when={"ahead": ahead, "part": _INNOCENT, "scored": scored},
                    outcome=outcome,
                    path="offside",
                    given=given,
                )
                for name, ahead, given in _OFFSIDE_IF
            ),
            _play(
                f"offside_exempt_{scored}",
                "Nobody is offside straight from a goal kick, throw-in or corner kick: "
                f"{words}.",
                "Law 11.3",
                when={"kind": _EXEMPT, "scored": scored},
                outcome=outcome,
                path="offside",
                given=_PLAYED,
            ),
        )
    ),
    *(
        _play(
            f"offside_offence_{name}{scored}",
            "Who takes part from an offside position gives an indirect free kick"
            f"{', and the goal does not count' if goal == 'no' else ''}.",
            "Law 11.2",
            when={"ahead": ahead, "part": "plays hinders gains", "scored": scored},
            outcome="indirect_free_kick",
            then={"goal": goal},
            path="offside",
            given=given,
        )
        for scored, goal in (("no", "none"), ("yes", "no"))
        for name, ahead, given in _OFFSIDE_IF
    ),
)
