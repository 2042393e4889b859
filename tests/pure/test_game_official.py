"""The official result is what was certified; what comes late is a case and changes nothing."""

from importlib.resources import files

from cases.sealed import log_of, sealed
from cases.told_games import eights, with_kicks
from wholeball.game.envelope import Entry, Finding, heads
from wholeball.game.event import Moment
from wholeball.game.happenings import (
    Amended,
    Cautioned,
    Certified,
    Forfeited,
    Goal,
    Happening,
    Noted,
    PeriodEnded,
    PeriodStarted,
    Rated,
    Reopened,
    Retracted,
)
from wholeball.game.late_case import case_words
from wholeball.game.official import Official, inside, official
from wholeball.game.rules import game_rules
from wholeball.game.state import Score
from wholeball.rulebook.load import load

BOOK = files("wholeball.rulebook.presets").joinpath("eight.toml").read_bytes()
RULES = game_rules(load(BOOK, file="eight.toml").rulebook)
PLAYED = log_of(
    [
        PeriodStarted(kick_off="home"),
        Goal(side="home", number=9),
        Goal(side="away", number=4),
        Goal(side="home", number=9),
    ],
    devices=("a", "b"),
)
END = Moment(2, 1_500)


def certified(log: list[Entry], *, over: list[Entry] | None = None) -> list[Entry]:
    """Certify a log, or a part of it, from the desk."""
    counted = log if over is None else over
    frontier = tuple((dev, seq, head) for dev, (seq, head) in heads(counted).items())
    what = Certified(by="u-9", state="", frontier=frontier)
    return [*log, sealed(what, log, dev="desk", at=END)]


def reopened(log: list[Entry]) -> list[Entry]:
    what = Reopened(by="u-9", reason="A goal was left out.")
    return [*log, sealed(what, log, dev="desk", at=END)]


def later(log: list[Entry], *happenings: Happening) -> list[Entry]:
    for what in happenings:
        log = [*log, sealed(what, log, dev="b", at=Moment(1, 600))]
    return log


def found(log: list[Entry]) -> Official:
    result = official(log, RULES)
    assert result is not None
    return result


def test_nothing_is_official_before_it_is_certified() -> None:
    assert official(PLAYED, RULES) is None


def test_the_official_result_is_what_was_certified() -> None:
    result = found(certified(PLAYED))
    assert result.state.score == Score(2, 1)
    assert (result.late, result.findings, result.certified.order[2]) == (None, (), "desk")


def test_a_late_goal_changes_nothing_and_makes_a_case() -> None:
    log = later(certified(PLAYED), Goal(side="away", number=5))
    result = found(log)
    assert result.state.score == Score(2, 1)
    assert result.late is not None
    assert result.late.entries == (log[-1],)
    assert result.late.state.score == Score(2, 2)
    assert "score" in result.late.would_change


def test_a_late_yellow_would_change_what_was_shown_and_not_the_score() -> None:
    late = found(later(certified(PLAYED), Cautioned(side="home", number=9))).late
    assert late is not None
    assert late.would_change == ("cards",)


def test_a_late_note_would_change_nothing() -> None:
    late = found(later(certified(PLAYED), Noted(text="Late."))).late
    assert late is not None
    assert (len(late.entries), late.would_change) == (1, ())


def test_what_was_reopened_is_not_official_until_it_is_certified_again() -> None:
    log = reopened(later(certified(PLAYED), Goal(side="away", number=5)))
    assert official(log, RULES) is None
    result = found(certified(log))
    assert (result.state.score, result.late) == (Score(2, 2), None)


def test_the_order_in_which_entries_lie_makes_no_difference() -> None:
    log = certified(reopened(later(certified(PLAYED), Goal(side="away", number=5))))
    assert found(log[::-1]).state == found(log).state


def test_a_frontier_parts_a_log_at_each_devices_number() -> None:
    split = inside(PLAYED, {"a": (2, PLAYED[2].hash), "b": (1, PLAYED[1].hash)})
    assert (split.inside, split.outside, split.findings) == (
        tuple(PLAYED[:3]),
        (PLAYED[3],),
        (),
    )


def test_a_device_that_no_frontier_names_is_outside() -> None:
    assert inside(PLAYED, {"a": (2, PLAYED[2].hash)}).outside == (PLAYED[1], PLAYED[3])
    assert inside(PLAYED, {"a": (0, "")}).findings == ()


def test_a_head_that_differs_or_is_missing_is_found() -> None:
    split = inside(PLAYED, {"a": (2, PLAYED[0].hash), "b": (3, PLAYED[3].hash)})
    assert split.findings == (Finding("head", "a", 2), Finding("head", "b", 3))
    assert split.inside == tuple(PLAYED)


def test_a_tail_that_was_cut_after_certifying_is_found() -> None:
    log = certified(PLAYED)
    assert found([*log[:3], log[4]]).findings == (Finding("head", "b", 2),)


def test_an_end_that_comes_late_would_change_the_result() -> None:
    certain = certified(PLAYED)
    log = [*certain, *_ended(certain)]
    late = found(log).late
    assert late is not None
    assert late.would_change == ("result", "winner", "ending")
    assert late.state.result == Score(2, 1)
    assert case_words(late, found(log).state) == (
        "3 entries came after the certification and would change what counts: no result would become 2-1 "
        "and how it ended: not yet would become at full time"
    )


def test_a_goal_alone_is_told_by_the_score_it_would_make() -> None:
    result = found(later(certified(PLAYED), Goal(side="away", number=5)))
    assert result.late is not None
    assert case_words(result.late, result.state) == (
        "1 entry came after the certification and would change the score: 2-1 would become 2-2"
    )


def test_a_late_forfeit_would_change_what_counts_and_how_the_game_ended() -> None:
    log = certified([*PLAYED, *_ended(PLAYED)])
    result = found([*log, sealed(Forfeited(by="home", why="conduct"), log, dev="b", at=END)])
    assert result.late is not None
    assert result.late.would_change == ("result", "winner", "ending")
    assert case_words(result.late, result.state) == (
        "1 entry came after the certification and would change what counts: 2-1 would become 0-5 and "
        "how it ended: at full time would become by forfeit"
    )


def test_kicks_whose_sides_were_taken_for_each_other_would_change_the_winner() -> None:
    log: list[Entry] = []
    for one in with_kicks():
        log = [*log, sealed(one.what, log, dev="a", at=one.at)]
    log = certified(log)
    for entry in log:
        if entry.said.type == "kick":
            other = "away" if entry.said.p["side"] == "home" else "home"
            swap = Amended(target=entry.said.id, key="side", value=other)
            log = [*log, sealed(swap, log, dev="b", at=END)]
    result = official(log, eights("play_off", ties={"play_off": "kicks"}))
    assert result is not None
    assert result.late is not None
    assert result.late.would_change == ("kicks", "winner")
    assert case_words(result.late, result.state) == (
        "8 entries came after the certification and would change kicks from the mark: 3-1 would become 1-3 "
        "and the winner: the home side would become the away side"
    )


def test_a_late_rating_would_change_the_ratings_and_the_same_once_more_nothing() -> None:
    rated = Rated(side="home", by="opponent", hundredths=400)
    result = found(later(certified(PLAYED), rated))
    assert result.late is not None
    assert result.late.would_change == ("ratings",)
    assert case_words(result.late, result.state) == (
        "1 entry came after the certification and would change the ratings"
    )
    log = certified([*PLAYED, sealed(rated, PLAYED, dev="b")])
    log = [*log, sealed(Retracted(target=log[-2].said.id), log, dev="b")]
    late = found([*log, sealed(rated, log, dev="b")]).late
    assert late is not None
    assert late.would_change == ()


def test_a_certification_that_was_taken_back_does_not_count() -> None:
    log = certified(PLAYED)
    log = [*log, sealed(Retracted(target=log[-1].said.id), log, dev="desk")]
    assert official(log, RULES) is None
    late = later(log, Goal(side="away", number=5))
    result = found(certified(late))
    assert (result.state.score, result.late) == (Score(2, 2), None)


def test_a_reopening_that_was_taken_back_leaves_the_certification_and_makes_no_case() -> None:
    log = reopened(certified(PLAYED))
    log = [*log, sealed(Retracted(target=log[-1].said.id), log, dev="desk")]
    result = found(log)
    assert (result.state.score, result.late) == (Score(2, 1), None)


def test_taking_back_what_was_taken_back_does_not_certify_again() -> None:
    log = certified(PLAYED)
    log = [*log, sealed(Retracted(target=log[-1].said.id), log, dev="desk")]
    log = [*log, sealed(Retracted(target=log[-1].said.id), log, dev="desk")]
    assert official(log, RULES) is None


def _ended(log: list[Entry]) -> list[Entry]:
    """Return the entries that end a game on time."""
    ends: list[Happening] = [PeriodEnded(), PeriodStarted(kick_off="away"), PeriodEnded()]
    made: list[Entry] = []
    for what, at in zip(ends, [Moment(1, 1_500), Moment(2, 0), END], strict=True):
        made.append(sealed(what, [*log, *made], dev="b", at=at))
    return made
