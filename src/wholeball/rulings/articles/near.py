"""Declares what follows when somebody is too near at a restart: Laws 8, 13, 14, 15, 16, 17."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_FREE: Final = "direct_free_kick indirect_free_kick"
_ALWAYS: Final = {"penalty.encroachment.punished": "always"}
_IMPACT: Final = {"penalty.encroachment.punished": "with_impact"}
_KEEPER: Final = "penalty.goalkeeper"


def _encroached(
    by: str, result: str, outcome: str, goal: str, says: str
) -> tuple[Article, ...]:
    """Return the article twice: asked for its impact, and from when nobody asked."""
    return tuple(
        _play(
            f"encroached_{by}_{result}{name}",
            says,
            "Law 14.2",
            when={"by": by, "result": result, **impact},
            outcome=outcome,
            then={"goal": goal},
            path="penalty.encroachment",
            given=given,
        )
        for name, impact, given in (
            ("", {}, _ALWAYS),
            ("_with_impact", {"impact": "yes"}, _IMPACT),
        )
    )


NEAR: Final[tuple[Article, ...]] = (
    _play(
        "out_of_place_at_kick_off",
        "A kick-off with a player out of place is taken again.",
        "Law 8.1",
        when={"seen": "near", "kind": "kick_off"},
        outcome="retake",
        path="kick_off",
    ),
    _play(
        "thrower_hindered_before",
        "An opponent too near the thrower does not change a throw-in that is still to come.",
        "Law 15.2",
        when={"thrown": "no"},
        outcome="unchanged",
        path="throw_in",
    ),
    _play(
        "thrower_hindered",
        "An opponent too near the thrower gives an indirect free kick once the ball is thrown.",
        "Law 15.2",
        when={"thrown": "yes"},
        outcome="indirect_free_kick",
        then={"side": "A"},
        path="throw_in",
    ),
    _play(
        "opponent_in_the_way",
        "A free or corner kick with an opponent too near and in the way is taken again.",
        "Laws 13.3 and 17.2",
        when={"used": "no"},
        outcome="retake",
        path="free_kick",
    ),
    _play(
        "advantage_though_near",
        "If it is better for the takers, play goes on though an opponent was too near.",
        "Law 13.3",
        when={"used": "yes"},
        outcome="play_on",
        path="free_kick",
    ),
    _play(
        "quick_kick_intercepted",
        "Who takes a kick quickly accepts that a near opponent may intercept it.",
        "Law 13.3",
        when={"how_near": "quick"},
        outcome="play_on",
        path="free_kick",
    ),
    _play(
        "no_time_to_leave",
        "An opponent without time to leave the area who lets the ball be does not matter.",
        "Laws 13.3 and 16.2",
        when={"how_near": "no_time"},
        outcome="play_on",
    ),
    _play(
        "challenge_in_the_area",
        "With an opponent in the area who goes for the ball too soon, the kick is taken again.",
        "Laws 13.3 and 16.2",
        when={"how_near": "challenges"},
        outcome="retake",
    ),
    _play(
        "defenders_between_posts",
        "Defenders may stand on their goal line between the posts.",
        "Law 13.2",
        when={"how_near": "on_line"},
        outcome="play_on",
    ),
    _play(
        "attacker_at_wall",
        "An attacker too near the wall gives an indirect free kick.",
        "Law 13.3",
        when={"wall": "yes"},
        outcome="indirect_free_kick",
        path="free_kick.wall",
        given={"free_kick.wall.players": "some"},
    ),
    _play(
        "attacker_not_at_wall",
        "Attackers may stand anywhere else.",
        "Law 13.2",
        when={"wall": "no"},
        outcome="play_on",
        path="free_kick.wall",
        given={"free_kick.wall.players": "some"},
    ),
    _play(
        "attackers_anywhere",
        "Attackers may stand anywhere at their own free kick.",
        "Law 13.2",
        when={"by": "own", "kind": _FREE},
        outcome="play_on",
        path="free_kick.wall",
        given={"free_kick.wall.players": "none"},
    ),
    _play(
        "near_dropped_ball",
        "A dropped ball with somebody too near is dropped again.",
        "Law 8.2",
        when={"seen": "near", "kind": "dropped_ball"},
        outcome="retake",
        path="dropped_ball",
        given={"dropped_ball.distance": "some"},
    ),
    _play(
        "anywhere_at_dropped_ball",
        "Anybody may contest a dropped ball.",
        "Law 8.2",
        when={"seen": "near", "kind": "dropped_ball"},
        outcome="play_on",
        path="dropped_ball",
        given={"dropped_ball.distance": "none"},
    ),
)

PENALTY: Final[tuple[Article, ...]] = (
    *_encroached("own", "goal", "retake", "no", "Attackers too near: a goal is not given."),
    *_encroached(
        "own",
        "no_goal",
        "indirect_free_kick",
        "no",
        "Attackers too near and no goal: indirect free kick to the defenders.",
    ),
    *_encroached("opp", "goal", "goal_for_a", "A", "Defenders too near: a goal counts."),
    *_encroached("opp", "no_goal", "retake", "no", "Defenders too near: taken again."),
    *_encroached("both", "goal", "retake", "no", "Both sides too near: taken again."),
    *_encroached("both", "no_goal", "retake", "no", "Both sides too near: taken again."),
    _play(
        "encroached_without_impact_goal",
        "Players too near who change nothing are let be: the goal counts.",
        "Law 14.2",
        when={"impact": "no", "result": "goal"},
        outcome="goal_for_a",
        path="penalty.encroachment",
        given=_IMPACT,
    ),
    _play(
        "encroached_without_impact_no_goal",
        "Players too near who change nothing are let be: play goes on.",
        "Law 14.2",
        when={"impact": "no", "result": "no_goal"},
        outcome="natural",
        then={"goal": "no"},
        path="penalty.encroachment",
        given=_IMPACT,
    ),
    _play(
        "keeper_offends_goal",
        "A goal counts though the goalkeeper left the line too early.",
        "Law 14.2",
        when={"by": "keeper", "result": "goal"},
        outcome="goal_for_a",
        path=_KEEPER,
    ),
    _play(
        "keeper_offends_and_saves",
        "A kick that the goalkeeper saves after leaving the line too early is taken again.",
        "Law 14.2",
        when={"saved": "saved affected"},
        outcome="retake",
        then={"goal": "no"},
        path=_KEEPER,
    ),
    *(
        _play(
            f"keeper_offends_kick_misses_{value}",
            says,
            "Law 14.2",
            when={"saved": "missed"},
            outcome=outcome,
            then={"goal": "no"},
            path=_KEEPER,
            given={f"{_KEEPER}.missed_unaffected": value},
        )
        for value, outcome, says in (
            (
                "retake",
                "retake",
                "A kick that misses is taken again if the goalkeeper offended.",
            ),
            ("no_retake", "natural", "A kick that misses by itself is not taken again."),
        )
    ),
    _play(
        "keeper_and_kicker_retake",
        "If goalkeeper and kicker offend together, the kick is taken again.",
        "Law 14.2",
        when={"by": "keeper_and_taker"},
        outcome="retake",
        then={"goal": "no"},
        path=_KEEPER,
        given={f"{_KEEPER}.with_kicker": "retake"},
    ),
    *(
        _play(
            f"keeper_and_kicker_{result}",
            says,
            "Law 14.2",
            when={"by": "keeper_and_taker", "result": result},
            outcome=outcome,
            then={"goal": "no"},
            path=_KEEPER,
            given={f"{_KEEPER}.with_kicker": "kicker_penalised_if_goal"},
        )
        for result, outcome, says in (
            ("goal", "indirect_free_kick", "If both offend and it goes in, the kicker pays."),
            ("no_goal", "retake", "If both offend and it does not go in, it is taken again."),
        )
    ),
    _play(
        "keeper_and_kicker_penalised",
        "If goalkeeper and kicker offend together, the kicker pays.",
        "Law 14.2",
        when={"by": "keeper_and_taker"},
        outcome="indirect_free_kick",
        then={"goal": "no"},
        path=_KEEPER,
        given={f"{_KEEPER}.with_kicker": "kicker_penalised"},
    ),
    _play(
        "stranger_before_goal",
        "A penalty kick that something strange touches on its way is taken again.",
        "Law 14.3",
        when={"flight": "forward"},
        outcome="retake",
        then={"goal": "no"},
    ),
    _play(
        "stranger_without_harm",
        "If it goes in all the same and hampered nobody, it is a goal.",
        "Law 14.3",
        when={"flight": "forward_in"},
        outcome="goal_for_a",
    ),
    _play(
        "stranger_after_rebound",
        "Something strange that touches the ball after a rebound brings a dropped ball.",
        "Law 14.3",
        when={"flight": "rebound"},
        outcome="dropped_ball",
        then={"goal": "no"},
        path="dropped_ball",
    ),
)
