"""Declares what follows when the ball meets a line: Laws 8.2, 9, 10, 15, 16 and 17."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_IN: Final = {"line": "opp", "mouth": "in"}
_NO_DIRECT_GOAL: Final = (
    ("kick_off", "kick-off"),
    ("throw_in", "throw-in"),
    ("goal_kick", "goal kick"),
    ("corner_kick", "corner kick"),
)
_TABLES: Final = {"corner_kick": "corner"}

BALL: Final[tuple[Article, ...]] = (
    _play(
        "part_over",
        "A ball that is not wholly over the whole of the line is in play.",
        "Law 9.1",
        when={"whole": "no"},
        outcome="play_on",
    ),
    _play(
        "over_touchline",
        "A ball wholly over the touchline is thrown in by the side that did not touch it last.",
        "Law 15",
        when={"line": "touch"},
        outcome="throw_in",
        path="throw_in",
    ),
    _play(
        "over_goal_line_attacked",
        "A ball that the attackers send over the goal line beside the goal brings a goal kick.",
        "Law 16",
        when={"line": "opp", "mouth": "beside"},
        outcome="goal_kick",
        path="goal_kick",
    ),
    _play(
        "over_own_goal_line",
        "A ball that the defenders send over their goal line beside the goal brings a corner.",
        "Law 17",
        when={"line": "own", "mouth": "beside"},
        outcome="corner_kick",
        path="corner",
    ),
    _play(
        "goal",
        "The whole ball over the goal line between the posts and under the bar is a goal.",
        "Law 10.1",
        when=_IN,
        outcome="goal_for_a",
    ),
    _play(
        "own_goal",
        "A ball that a side sends into its own goal counts for the other side.",
        "Law 10.1",
        when={"moment": "open", "line": "own", "mouth": "in"},
        outcome="goal_for_b",
    ),
    _play(
        "restart_into_own_goal",
        "A restart that goes straight into the own goal brings a corner kick and no goal.",
        "Laws 8, 13, 15, 16 and 17",
        when={"moment": "taking", "line": "own", "mouth": "in"},
        outcome="corner_kick",
        then={"goal": "no"},
    ),
    _play(
        "thrown_goal",
        "A goalkeeper's throw into the opponents' goal is no goal; they take a goal kick.",
        "Law 10.1",
        when={"sent": "keeper_throw"},
        outcome="goal_kick",
        then={"goal": "no"},
        over="goal",
        path="goalkeeper.distribution",
        given={"goalkeeper.distribution.direct_goal": "no"},
    ),
    _play(
        "indirect_into_goal",
        "An indirect free kick that goes straight in is no goal; the others take a goal kick.",
        "Law 13.1",
        when={"arm_up": "yes"},
        outcome="goal_kick",
        then={"goal": "no"},
        over="goal",
    ),
    _play(
        "arm_forgotten",
        "An indirect free kick that goes in though the arm was not raised is taken again.",
        "Law 13.1",
        when={"arm_up": "no"},
        outcome="retake",
        then={"goal": "no"},
        over="goal",
    ),
    *(
        _play(
            f"{kind}_into_goal",
            f"A {words} that goes straight in is no goal; the others take a goal kick.",
            "Laws 8, 15, 16 and 17",
            when={**_IN, "kind": kind},
            outcome="goal_kick",
            then={"goal": "no"},
            over="goal",
            path=_TABLES.get(kind, kind),
            given={f"{_TABLES.get(kind, kind)}.direct_goal": "no"},
        )
        for kind, words in _NO_DIRECT_GOAL
    ),
    _play(
        "drop_into_goal",
        "A dropped ball that fewer than two players touched is no goal: goal kick.",
        "Law 8.2",
        when={**_IN, "drop_touched": "one"},
        outcome="goal_kick",
        then={"goal": "no"},
        over="goal",
        path="dropped_ball",
    ),
    _play(
        "drop_leaves_untouched",
        "A dropped ball that leaves the field untouched is dropped again.",
        "Law 8.2",
        when={"drop_touched": "none"},
        outcome="retake",
        over="over_touchline over_goal_line_attacked over_own_goal_line",
        path="dropped_ball",
    ),
    _play(
        "drop_untouched_into_goal",
        "A dropped ball that goes into a goal untouched is no goal, and is dropped again.",
        "Law 8.2",
        when={"drop_touched": "none", "mouth": "in"},
        outcome="retake",
        then={"goal": "no"},
        over="goal restart_into_own_goal drop_leaves_untouched",
        path="dropped_ball",
    ),
    _play(
        "kick_is_over",
        "After a rebound that is played again, a kick for which time was extended is over.",
        "Laws 10.3 and 14.3",
        when={"through": "second_play", "at": "extended kicks"},
        outcome="natural",
        then={"goal": "no"},
        over="goal",
    ),
)
