"""Declares hands on the ball and what a goalkeeper may not do: Law 12."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.fouls import direct
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_BEFORE_GOAL: Final = "handball.before_goal"
_THEN: Final = "goalkeeper.return_pass.then"
_SPOT: Final = "goalkeeper.return_pass.spot"
_FREE: Final = "direct_free_kick indirect_free_kick"

HANDS: Final[tuple[Article, ...]] = (
    _play(
        "arm_by_accident",
        "A ball that meets an arm in a natural place by accident is in play.",
        "Law 12.1",
        when={"arm": "accident", "net": "no"},
        outcome="play_on",
        path="handball",
    ),
    *(
        _play(
            f"accident_{net}_{name}",
            says,
            "Law 12.1",
            when={"net": net},
            outcome=outcome,
            then={"goal": goal},
            path="handball",
            given={_BEFORE_GOAL: words},
        )
        for net, name, outcome, goal, words, says in (
            (
                "self",
                "no_goal",
                "direct_free_kick",
                "no",
                "not deliberate_only",
                "Nobody scores with the own arm, or at once after it, even by accident.",
            ),
            (
                "self",
                "goal",
                "goal_for_a",
                "A",
                "deliberate_only",
                "Only handling on purpose takes a goal away.",
            ),
            (
                "mate",
                "no_goal",
                "direct_free_kick",
                "no",
                "own_or_team_mates_goal",
                "An accidental arm just before a team-mate's goal takes it away.",
            ),
            (
                "mate",
                "goal",
                "goal_for_a",
                "A",
                "not own_or_team_mates_goal",
                "An accidental arm before a team-mate's goal does not matter.",
            ),
        )
    ),
    _play(
        "handled_into_own_goal",
        "A ball that goes in though a defender handled it is a goal.",
        "Laws 5.3 and 12.3",
        when={"net": "own"},
        outcome="goal_for_b",
        path="handball",
    ),
    _play(
        "scored_by_hand",
        "A goal by hand does not count and is a direct free kick.",
        "Law 12.1",
        when={"arm": "to_score"},
        outcome="direct_free_kick",
        then={"goal": "no"},
        path="handball",
    ),
    *direct(
        "handball",
        "Handling the ball on purpose or with an unnaturally bigger body",
        {"arm": "deliberate bigger"},
        path="handball",
    ),
    _play(
        "keeper_hands_outside",
        "A goalkeeper may not handle outside the own penalty area.",
        "Law 12.1",
        when={"seen": "handling", "who": "keeper", "advantage": "no"},
        outcome="goalkeeper.hands_outside.then",
        path="goalkeeper.hands_outside",
    ),
    _play(
        "keeper_takes_ball",
        "A goalkeeper may handle in the own penalty area.",
        "Law 12.1",
        when={"hands": "fair"},
        outcome="play_on",
        path="goalkeeper",
    ),
    _play(
        "keeper_holds",
        "A goalkeeper may not keep the ball longer than allowed.",
        "Law 12.2",
        when={"hands": "too_long"},
        outcome="goalkeeper.hold.then",
        path="goalkeeper.hold",
    ),
    _play(
        "keeper_takes_again",
        "A goalkeeper who released the ball waits until another player has touched it.",
        "Law 12.2",
        when={"hands": "again"},
        outcome="indirect_free_kick",
        path="goalkeeper",
    ),
    _play(
        "not_a_return_pass",
        "A header, a deflection or a miskick of a team-mate may be handled.",
        "Law 12.2",
        when={"source": "other"},
        outcome="play_on",
        path="goalkeeper.return_pass",
    ),
    *(
        _play(
            f"return_pass_{name}",
            "A goalkeeper may not handle what a team-mate kicked on purpose.",
            "Law 12.2",
            when={"source": "kick"},
            outcome=_THEN,
            then=then,
            path="goalkeeper.return_pass",
            given=given,
        )
        for name, then, given in (
            ("here", {}, {_THEN: _FREE, _SPOT: "offence"}),
            ("goal_area", {"basis": "goal_area_line"}, {_THEN: _FREE, _SPOT: "goal_area_line"}),
            (
                "penalty_area",
                {"basis": "penalty_area_line"},
                {_THEN: _FREE, _SPOT: "penalty_area_line"},
            ),
            ("other", {}, {_THEN: f"not {_FREE}"}),
        )
    ),
    _play(
        "return_throw",
        "A goalkeeper may not handle a team-mate's throw-in.",
        "Law 12.2",
        when={"source": "throw"},
        outcome="goalkeeper.return_throw.then",
        path="goalkeeper.return_throw",
    ),
    _play(
        "cleared_first",
        "After a clear try to kick the ball away the goalkeeper may handle it.",
        "Law 12.2",
        when={"cleared": "yes"},
        outcome="play_on",
        over="return_pass_here return_pass_goal_area return_pass_penalty_area "
        "return_pass_other return_throw",
        path="goalkeeper.return_pass",
        given={"goalkeeper.return_pass.after_clearing": "allowed"},
    ),
    *(
        _play(
            f"sent_far_{name}",
            says,
            "common practice, no source",
            when={"hands": "sent_far"},
            outcome=outcome,
            path="goalkeeper.distribution",
            given={"goalkeeper.distribution.past_halfway": name},
        )
        for name, outcome, says in (
            ("allowed", "play_on", "A goalkeeper may send the ball as far as it goes."),
            (
                "not_in_the_air",
                "goalkeeper.distribution.then",
                "A goalkeeper may not send the ball over halfway in the air.",
            ),
        )
    ),
)
