"""Declares what leaving, coming on and conduct do to play: Laws 3, 8 and 12."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")

CONDUCT: Final[tuple[Article, ...]] = (
    _play(
        "crosses_line_in_play",
        "A player who crosses a line while playing stays in play.",
        "Law 3.8",
        when={"move": "with_play"},
        outcome="play_on",
    ),
    _play(
        "swap_waits",
        "An unannounced change of goalkeepers waits for the next stop.",
        "Law 3.5",
        when={"move": "swap"},
        outcome="play_on",
    ),
    *(
        _play(
            f"enters_and_interferes_{place}",
            "A player who comes on without permission and interferes gives a "
            f"{'penalty' if place == 'own_area' else 'direct free'} kick.",
            "Law 3.8",
            when={"hampers": "yes", "place": place},
            outcome=outcome,
            then=then,
            path="extra_persons",
        )
        for place, outcome, then in (
            ("elsewhere", "direct_free_kick", {"basis": "interference"}),
            ("own_area", "penalty_kick", {}),
        )
    ),
    _play(
        "stopped_for_crossing",
        "If play is stopped for a player who left or came on without permission, it is an "
        "indirect free kick where the ball was.",
        "Law 12.4",
        when={"seen": "bounds", "halted": "yes"},
        outcome="indirect_free_kick",
        then={"basis": "ball"},
    ),
    _play(
        "crossing_waits",
        "What need not stop play waits for the next stop.",
        "Law 12.3",
        when={"seen": "bounds", "halted": "no"},
        outcome="play_on",
    ),
    _play(
        "stopped_for_conduct",
        "If play is stopped for conduct alone, it is an indirect free kick.",
        "Law 12.4",
        when={"seen": "conduct", "halted": "yes"},
        outcome="indirect_free_kick",
    ),
    _play(
        "conduct_waits",
        "Conduct for which play is not stopped waits for the next stop.",
        "Law 12.3",
        when={"seen": "conduct", "halted": "no"},
        outcome="play_on",
    ),
    _play(
        "indirect_conduct",
        "A trick around the rule on passes to the goalkeeper, or playing on when about to be "
        "sent off, is an indirect free kick.",
        "Laws 12.2 and 12.3",
        when={"conduct": "trick plays_before_red"},
        outcome="indirect_free_kick",
    ),
    _play(
        "conduct_out_of_play",
        "Conduct while the ball is not in play does not change the restart.",
        "Laws 8 and 12.4",
        when={"moment": "taking dead", "seen": "conduct"},
        outcome="unchanged",
    ),
)
