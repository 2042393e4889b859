"""Declares offside: Law 11."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import of_stage

_play = of_stage("play")
_PLAYED: Final = {"offside.played": "yes"}
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
                when={"seen": "offside", "scored": scored},
                outcome=outcome,
                path="offside",
                given={"offside.played": "no"},
            ),
            _play(
                f"not_ahead_{scored}",
                f"Nobody is offside who was not in an offside position: {words}.",
                "Law 11.1",
                when={"ahead": "no", "scored": scored},
                outcome=outcome,
                path="offside",
                given=_PLAYED,
            ),
            _play(
                f"ahead_without_part_{scored}",
                "An offside position alone, or a ball that an opponent played on purpose, is "
                f"no offence: {words}.",
                "Law 11.2",
                when={"part": _INNOCENT, "scored": scored},
                outcome=outcome,
                path="offside",
                given=_PLAYED,
            ),
            _play(
                f"offside_exempt_{scored}",
                "Nobody is offside straight from a goal kick, throw-in or corner kick: "
                f"{words}.",
                "Law 11.3",
                when={"seen": "offside", "kind": _EXEMPT, "scored": scored},
                outcome=outcome,
                path="offside",
                given=_PLAYED,
            ),
        )
    ),
    *(
        _play(
            f"offside_offence_{scored}",
            "Who takes part from an offside position gives an indirect free kick"
            f"{', and the goal does not count' if goal == 'no' else ''}.",
            "Law 11.2",
            when={"part": "plays hinders gains", "scored": scored},
            outcome="indirect_free_kick",
            then={"goal": goal},
            path="offside",
            given=_PLAYED,
        )
        for scored, goal in (("no", "none"), ("yes", "no"))
    ),
)
