"""Declares where play resumes and who gets a dropped ball: Laws 8.2, 13.2, 14, 15, 16 and 17."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_spot = Writer("spot")
_RETURN: Final = "goalkeeper.return_pass"
_NEAR: Final = "free_kick.near_goal"
_DROP: Final = "dropped_ball"
_KICKS: Final = "direct_free_kick indirect_free_kick"
_AREAS: Final = "own_area opp_area"
_GIVEN_TO: Final = f"{_DROP}.to"
_GIVEN_AREA: Final = f"{_DROP}.in_penalty_area"
_GIVEN_SPOT: Final = f"{_DROP}.spot"
_BY_LAST_TOUCH: Final = {_GIVEN_AREA: "defending_goalkeeper", _GIVEN_SPOT: "last_touch"}

_PLACES: Final = (
    ("none", "none", "No restart follows, and so no place."),
    ("left", "where_it_left", "It is taken where the ball left."),
    ("goal_area", "goal_area", "It is taken anywhere in the goal area."),
    ("corner", "corner_nearest", "It is taken in the nearest corner area."),
    ("centre", "centre_mark", "It is taken on the centre mark."),
    ("mark", "penalty_mark", "It is taken on the penalty mark."),
    ("offence", "offence", "It is taken where the offence happened."),
    ("boundary", "nearest_boundary", "It is taken on the nearest point of the boundary."),
    ("struck", "struck", "It is taken where the object struck or would have struck."),
    ("interference", "interference", "It is taken where they interfered."),
    ("ball", "ball_when_stopped", "It is taken where the ball was when play was stopped."),
    ("same", "same_place", "It is taken in the same place."),
)
_NEAR_GOAL: Final = (
    ("goal_area_line", "goal_area_line_nearest"),
    ("penalty_area_line", "penalty_area_line_nearest"),
    ("penalty_mark", "penalty_mark"),
)

PLACES: Final[tuple[Article, ...]] = (
    *(
        _spot(
            f"at_{basis}",
            says,
            "Laws 8.1, 13.2, 14.1, 15.1, 16.1 and 17.1",
            when={"basis": basis},
            then={"spot": spot},
        )
        for basis, spot, says in _PLACES
    ),
    *(
        _spot(
            f"at_{line}",
            f"After a pass back it is taken on the {words} line.",
            "common practice, no source",
            when={"basis": line},
            then={"spot": f"{line}_nearest"},
            path=_RETURN,
            given={f"{_RETURN}.spot": line, f"{_RETURN}.then": _KICKS},
        )
        for line, words in (
            ("goal_area_line", "goal-area"),
            ("penalty_area_line", "penalty-area"),
        )
    ),
    *(
        _spot(
            f"again_at_{spot}",
            f"A {words} taken again is on its mark.",
            law,
            when={"basis": "same", "kind": kind},
            then={"spot": spot},
            over="at_same",
        )
        for kind, spot, words, law in (
            ("kick_off", "centre_mark", "kick-off", "Law 8.1"),
            ("penalty_kick", "penalty_mark", "penalty kick", "Law 14.1"),
        )
    ),
    *(
        _spot(
            f"attackers_near_goal_{to}",
            "An indirect free kick to the attackers in the goal area moves away from goal.",
            "Law 13.2",
            when={"restart": "indirect_free_kick", "goal_area": "own"},
            then={"spot": spot},
            over="at_offence",
            path=_NEAR,
            given={f"{_NEAR}.spot": to},
        )
        for to, spot in _NEAR_GOAL
    ),
    _spot(
        "defenders_in_goal_area",
        "A free kick to the defenders in their goal area is taken anywhere in it.",
        "Law 13.2",
        when={"goal_area": "opp"},
        then={"spot": "goal_area"},
        over="at_offence",
        path="free_kick",
    ),
    *(
        _spot(
            f"for_side_{side.lower()}",
            "The side that gets it takes it.",
            "Laws 8 and 13 to 17",
            when={"side": side},
            then={"taker": side},
        )
        for side in ("A", "B", "none")
    ),
)

DROPS: Final[tuple[Article, ...]] = (
    *(
        _spot(
            f"drop_in_{area}",
            "A ball stopped in a penalty area is dropped for the goalkeeper who defends it.",
            "Law 8.2",
            when={"ball_at": area},
            then={"spot": "goalkeeper_in_penalty_area", "taker": taker},
            path=_DROP,
            given={_GIVEN_AREA: "defending_goalkeeper"},
        )
        for area, taker in (("own_area", "toucher"), ("opp_area", "other"))
    ),
    _spot(
        "drop_contested_in_area",
        "A ball stopped in a penalty area is dropped between both sides.",
        "Law 8.2",
        when={"ball_at": _AREAS},
        then={"spot": "ball_when_stopped", "taker": "both"},
        path=_DROP,
        given={_GIVEN_AREA: "contested"},
    ),
    *(
        _spot(
            f"drop_touched_in_{area}",
            "A ball last touched in a penalty area is dropped for the goalkeeper who defends it.",
            "Law 8.2",
            when={"last_at": area},
            then={"spot": "goalkeeper_in_penalty_area", "taker": taker},
            over=over,
            path=_DROP,
            given=_BY_LAST_TOUCH,
        )
        for area, taker, over in (
            ("own_area", "toucher", "drop_where_touched drop_to_clear_other drop_contested"),
            (
                "opp_area",
                "other",
                "drop_where_touched drop_to_last_touch drop_to_clear_same drop_contested",
            ),
        )
    ),
    _spot(
        "drop_where_touched",
        "A ball is dropped where it was touched last.",
        "Law 8.2",
        when={"ball_at": "elsewhere"},
        then={"spot": "last_touch"},
        path=_DROP,
        given={_GIVEN_SPOT: "last_touch"},
    ),
    _spot(
        "drop_where_stopped",
        "A ball is dropped where it was when play was stopped.",
        "Law 8.2",
        when={"ball_at": "elsewhere"},
        then={"spot": "ball_when_stopped"},
        path=_DROP,
        given={_GIVEN_SPOT: "where_stopped"},
    ),
    _spot(
        "drop_contested",
        "A ball is dropped between both sides.",
        "Law 8.2",
        when={"ball_at": "elsewhere"},
        then={"taker": "both"},
        path=_DROP,
        given={_GIVEN_TO: "contested"},
    ),
    _spot(
        "drop_to_last_touch",
        "A ball is dropped for the side that touched it last.",
        "Law 8.2",
        when={"ball_at": "elsewhere"},
        then={"taker": "toucher"},
        path=_DROP,
        given={_GIVEN_TO: "last_touch"},
    ),
    *(
        _spot(
            f"drop_to_clear_{to}",
            "A ball is dropped for the side that would clearly have got it, or else for the "
            "side that touched it last.",
            "Law 8.2",
            when={"would": would},
            then={"taker": taker},
            path=_DROP,
            given={_GIVEN_TO: "clear_possession_or_last_touch"},
        )
        for to, would, taker in (
            ("same", "same unclear", "toucher"),
            ("other", "other", "other"),
        )
    ),
)
