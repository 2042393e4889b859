"""Declares faults of the taker: Laws 8, 13, 14, 15, 16 and 17."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_play = Writer("play")
_FREE: Final = "direct_free_kick indirect_free_kick"
_AGAIN: Final = {"first": "no", "second": "yes"}
_WHAT: Final = {"throw_in": "goes to the other side", "retake": "is taken again"}


def _throw(key: str, flaws: str, words: str) -> tuple[Article, ...]:
    """Return the articles on a throw-in that goes wrong once, and once more.

    Where the second time costs what the first does, nobody asks which it was.
    """
    values = ("throw_in", "retake")
    alike = tuple(
        _thrown(key, flaws, f"{words} {_WHAT[value]}", value, (value, value))
        for value in values
    )
    turns = tuple(
        _thrown(
            key, flaws, f"{words} {_WHAT[costs[turn]]}, the {nth} time", costs[turn], costs, nth
        )
        for costs in (("retake", "throw_in"), ("throw_in", "retake"))
        for turn, nth in enumerate(_AGAIN)
    )
    return (*alike, *turns)


def _thrown(
    key: str, flaws: str, words: str, value: str, costs: tuple[str, str], nth: str = ""
) -> Article:
    again = {"again": _AGAIN[nth]} if nth else {}
    return _play(
        "_".join(filter(None, (key, nth, value))),
        f"A throw-in that {words}.",
        "Law 15.1",
        when={"kind": "throw_in", "flaw": flaws, **again},
        outcome=value,
        then={"basis": "same"},
        path=f"throw_in.{key}",
        given={f"throw_in.{key}.first": costs[0], f"throw_in.{key}.second": costs[1]},
    )


_MISPLAYED: Final = _throw("misplayed", "stance place place_to_delay", "is taken wrongly")
_NOT_ENTERING: Final = _throw("not_entering", "not_in", "does not come in")
_LET_GO: Final = " ".join(
    ("ball_moving", "kick_from_wrong_place", *(article.name for article in _MISPLAYED))
)

FORM: Final[tuple[Article, ...]] = (
    _play(
        "taken_well",
        "A restart that is taken as it should be goes on.",
        "Laws 8, 13 to 17",
        when={"flaw": "none"},
        outcome="play_on",
    ),
    _play(
        "last_kick_goes_in",
        "A penalty kick for which time was extended, or a kick from the mark, that is taken as "
        "it should be and goes in is a goal.",
        "Laws 10.3 and 14.3",
        when={"flaw": "none", "in_net": "yes"},
        outcome="goal_for_a",
        over="taken_well",
    ),
    _play(
        "last_kick_does_not_go_in",
        "One that is taken as it should be and does not go in is no goal, and it is over.",
        "Laws 10.3 and 14.3",
        when={"flaw": "none", "in_net": "no"},
        outcome="natural",
        then={"goal": "no"},
        over="taken_well",
    ),
    _play(
        "ball_moving",
        "A kick from a moving ball is taken again.",
        "Laws 8.1, 13.2, 14.1, 16.1 and 17.1",
        when={"flaw": "moving"},
        outcome="retake",
        then={"goal": "no"},
    ),
    _play(
        "before_signal",
        "A kick-off or penalty kick before the signal is taken again.",
        "Laws 8.1 and 14.1",
        when={"flaw": "early"},
        outcome="retake",
        then={"goal": "no"},
    ),
    _play(
        "kick_from_wrong_place",
        "A kick from the wrong place is taken again.",
        "Laws 8.1, 13.2, 14.1, 16.1 and 17.1",
        when={"kind": "not throw_in", "flaw": "place place_to_delay"},
        outcome="retake",
        then={"goal": "no"},
    ),
    *_MISPLAYED,
    *_NOT_ENTERING,
    _play(
        "advantage_though_wrong",
        "A restart taken wrongly may go on for the other side's advantage.",
        "Law 5.3",
        when={"flaw": "moving place stance", "advantage": "yes"},
        outcome="play_on",
        over=_LET_GO,
        path="advantage",
        given={"advantage.incorrect_restart": "yes"},
    ),
    *(
        _play(
            f"goal_kick_inside_{'stays' if must == 'yes' else 'free'}",
            says,
            "Law 16.1",
            when={"kind": "goal_kick", "flaw": "inside"},
            outcome=outcome,
            path="goal_kick",
            given={"goal_kick.must_leave_area": must},
        )
        for must, outcome, says in (
            ("no", "play_on", "A goal kick is in play once it clearly moves."),
            ("yes", "goal_kick.not_leaving", "A goal kick must leave the penalty area."),
        )
    ),
    *(
        _play(
            f"free_kick_inside_{'stays' if must == 'yes' else 'free'}",
            says,
            "Law 13.2",
            when={"kind": _FREE, "flaw": "inside"},
            outcome=outcome,
            path="free_kick.own_area",
            given={"free_kick.own_area.must_leave_area": must},
        )
        for must, outcome, says in (
            ("no", "play_on", "A free kick is in play once it clearly moves."),
            ("yes", "retake", "A free kick in the own penalty area must leave it."),
        )
    ),
    *(
        _play(
            f"goal_kick_over_halfway_{may}",
            says,
            "common practice, no source",
            when={"flaw": "too_far"},
            outcome=outcome,
            path="goal_kick",
            given={"goal_kick.may_pass_halfway": may},
        )
        for may, outcome, says in (
            ("yes", "play_on", "A goal kick may go as far as it goes."),
            ("no", "goal_kick.too_far", "A goal kick may not cross halfway untouched."),
        )
    ),
    *(
        _play(
            f"kick_off_backward_{direction}",
            says,
            "Law 8.1",
            when={"kind": "kick_off", "flaw": "backward"},
            outcome=outcome,
            path="kick_off",
            given={"kick_off.direction": direction},
        )
        for direction, outcome, says in (
            ("any", "play_on", "A kick-off may go in any direction."),
            ("forward", "retake", "A kick-off that does not go forward is taken again."),
        )
    ),
    _play(
        "feint_allowed",
        "Feinting at a free kick is part of the game.",
        "Law 13.2",
        when={"kind": _FREE, "flaw": "feint"},
        outcome="play_on",
    ),
    _play(
        "penalty_taker_offends",
        "A penalty kick that goes backwards, follows a feint after the run-up or is taken by "
        "somebody else than the named kicker brings an indirect free kick, goal or not.",
        "Law 14.2",
        when={"kind": "penalty_kick", "flaw": "backward feint wrong_taker"},
        outcome="indirect_free_kick",
        then={"goal": "no"},
    ),
    _play(
        "kick_lost_by_absence",
        "A kicker who is not there in time loses the kick from the mark.",
        "Law 10.3",
        when={"flaw": "absent"},
        outcome="natural",
        then={"goal": "no"},
        path="kicks",
    ),
    _play(
        "taker_plays_again",
        "A taker who plays the ball again before another player gives an indirect free kick.",
        "Laws 8, 13, 14, 15, 16 and 17",
        when={"flaw": "twice"},
        outcome="indirect_free_kick",
    ),
    _play(
        "second_touch_unmeant_goal",
        "A penalty kick touched twice without meaning to is taken again if it goes in.",
        "Law 14.2",
        when={"meant": "no", "in_net": "yes"},
        outcome="penalty.double_touch.goal",
        then={"goal": "no"},
        over="taker_plays_again",
        path="penalty.double_touch",
        given={"penalty.double_touch.goal": "not indirect_free_kick"},
    ),
    _play(
        "second_touch_unmeant_no_goal",
        "What follows a penalty kick touched twice without meaning to that does not go in.",
        "Law 14.2",
        when={"meant": "no", "in_net": "no"},
        outcome="penalty.double_touch.no_goal",
        over="taker_plays_again",
        path="penalty.double_touch",
        given={"penalty.double_touch.no_goal": "not indirect_free_kick"},
    ),
    _play(
        "taker_handles",
        "A taker who handles the ball before another player touches it commits a hand offence.",
        "Laws 8, 13, 14, 15, 16 and 17",
        when={"flaw": "twice_hand", "zone": "elsewhere"},
        outcome="direct_free_kick",
    ),
    _play(
        "taker_handles_in_own_area",
        "In the own penalty area that is a penalty kick.",
        "Laws 13, 15 and 16",
        when={"flaw": "twice_hand", "who": "player", "zone": "own_area"},
        outcome="penalty_kick",
    ),
    _play(
        "keeper_handles_own_restart",
        "For a goalkeeper in the own penalty area it is an indirect free kick.",
        "Laws 13, 15 and 16",
        when={"flaw": "twice_hand", "who": "keeper", "zone": "own_area"},
        outcome="indirect_free_kick",
    ),
    _play(
        "drop_touched_early",
        "A dropped ball that is touched before the ground is dropped again.",
        "Law 8.2",
        when={"flaw": "before_ground"},
        outcome="retake",
        path="dropped_ball",
    ),
    *(
        _play(
            f"throw_in_time_{limit}",
            says,
            "common practice, no source",
            when={"flaw": "slow"},
            outcome=outcome,
            then={"basis": "same"},
            path="throw_in",
            given={"throw_in.seconds_most": limit},
        )
        for limit, outcome, says in (
            (
                "none",
                "unchanged",
                "A thrower has no fixed time; delaying on purpose is conduct.",
            ),
            ("some", "throw_in", "Who needs too long loses the ball to the other side."),
        )
    ),
    *(
        article
        for kind in ("throw_in", "goal_kick")
        for article in (
            _play(
                f"no_countdown_{kind}",
                "There is no countdown here.",
                "Laws 15 and 16",
                when={"kind": kind, "flaw": "countdown"},
                outcome="unchanged",
                path=f"{kind}.countdown",
                given={f"{kind}.countdown.seconds": "none"},
            ),
            _play(
                f"countdown_{kind}",
                "A restart that is not taken before the countdown ends goes to the other side.",
                "Laws 15 and 16",
                when={"kind": kind, "flaw": "countdown"},
                outcome=f"{kind}.countdown.then",
                path=f"{kind}.countdown",
                given={f"{kind}.countdown.seconds": "some"},
            ),
        )
    ),
)
