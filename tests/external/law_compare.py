"""Compares what the engine rules on a row's paths with what the row says."""

from collections.abc import Iterator, Mapping
from typing import Final

from external.law_in_play import IN_PLAY
from external.law_persons import PERSONS
from external.law_reading import ALWAYS, Reading, Row
from external.law_restarts import RESTARTS
from wholeball.rulings.bind import Rules
from wholeball.rulings.paths import paths

READERS: Final = {**PERSONS, **IN_PLAY, **RESTARTS}
NATURAL: Final = frozenset({"play_on", "corner_kick", "goal_kick", "throw_in"})
DROPS: Final = frozenset({"last_touch", "ball_when_stopped", "goalkeeper_in_penalty_area"})
OTHER: Final = {"A": "B", "B": "A"}
BY_DEGREE: Final = frozenset({"by_severity", "by_offence"})
ANY_SINGLE: Final = ("offender", "kicker", "goalkeeper", "initiator")
SAME_PERSON: Final = {
    "offender": ANY_SINGLE,
    "defender": ("offender",),
    "wrong_kicker": ("kicker",),
    "thrower": ("offender", "kicker"),
    "players": ("both",),
}
PARTS: Final = ("goal", "restart", "side", "spot", "sanction", "whom", "kick", "persons")
Wrong = tuple[str, object, object]


def read(row: Row) -> Reading:
    """Return what a row states; it never sees the row's ruling."""
    facts = row["facts"]
    return READERS[facts["event"]](facts)


def disagreements(row: Row, game: Rules, persons: Rules) -> tuple[int, list[Wrong]]:
    """Return on how many paths a row was ruled, and every part that differs on one of them."""
    reading = read(row)
    if reading.persons:
        ruled = [path.known for path in paths(persons, reading.facts)]
        wrong = [each for known in ruled for each in _persons(row, known, reading)]
    else:
        given = {**ALWAYS, **reading.facts}
        ruled = [path.known for path in paths(game, given)]
        wrong = [each for known in ruled for each in _game(row, known, swapped=reading.swapped)]
    return len(ruled), wrong


def _game(row: Row, known: Mapping[str, str], *, swapped: bool) -> Iterator[Wrong]:
    said = row["ruling"]
    yield from _goal(said, known, swapped=swapped)
    yield from _restart(row, known, swapped=swapped)
    yield from _spot(said, known)
    yield from _card(said, known, swapped=swapped)
    kick = said.get("kick")
    if kick is not None:
        kick = kick if kick in {"scored", "retake"} else "not_scored"
        yield from _same("kick", kick, known["kick"])
    if said.get("second_caution") is False and known["shown"] == "second_caution":
        yield ("sanction", "no second caution", known["shown"])
    if "waits" in said or "delay" in said:
        yield from _same("persons", "off_until_bleeding_stopped", known["care"])


def _same(part: str, wanted: object, found: object) -> Iterator[Wrong]:
    if wanted != found:
        yield (part, wanted, found)


def _side(name: str, *, swapped: bool) -> str:
    return OTHER.get(name, name) if swapped else name


def _goal(said: Row, known: Mapping[str, str], *, swapped: bool) -> Iterator[Wrong]:
    found = _side(known["goal"], swapped=swapped)
    wanted = said["goal_for"] if said["goal"] else None
    yield from _same("goal", wanted, found if found in OTHER else None)


def _restart(row: Row, known: Mapping[str, str], *, swapped: bool) -> Iterator[Wrong]:
    said = row["ruling"]
    is_over = known["resumed"] != "as_ruled"
    found = known["resumed"] if is_over else known["restart"]
    admits = said["admits"] or ([said["restart"]] if said["restart"] == "shootout" else None)
    if admits is None:
        return
    if found == "retake" and known.get("kind") == "dropped_ball" and "retake" not in admits:
        found = "dropped_ball"
    if found == "natural":
        found = "play_on" if set(admits) >= NATURAL or "play_on" in admits else found
    if found == "unchanged" and known["moment"] == "dead":
        found = _going_on(row, admits)
    if found not in admits:
        yield ("restart", admits, found)
    wanted = said["awarded_to"]
    taker = {"toucher": "A", "other": "B"}.get(known["taker"], known["taker"])
    if wanted is None or is_over:
        return
    if known["restart"] == "unchanged":
        yield from _same("side", wanted, row["facts"]["restart_team"] or wanted)
    else:
        yield from _same("side", wanted, _side(taker, swapped=swapped))


def _going_on(row: Row, admits: list[str]) -> str:
    """While play is stopped, what does not change goes on: after a goal, with the kick-off."""
    names = ("play_on", "kick_off") if row["facts"]["phase"] == "post_goal" else ("play_on",)
    return next((name for name in names if name in admits), "unchanged")


def _spot(said: Row, known: Mapping[str, str]) -> Iterator[Wrong]:
    wanted, found = said["spot_symbol"], known["spot"]
    admitted = {
        None: {found},
        "dropped_ball_by_edition": DROPS,
        "offence_or_nearest_boundary": {"offence", "nearest_boundary"},
    }.get(wanted, {wanted})
    if found not in admitted:
        yield ("spot", wanted, found)


def _card(said: Row, known: Mapping[str, str], *, swapped: bool) -> Iterator[Wrong]:
    wanted, found = said["sanction"], known["shown"]
    if wanted not in BY_DEGREE:
        yield from _same("sanction", wanted, "send_off" if found == "second_caution" else found)
    if wanted == "none" or said["sanctioned"] is None or found == "none":
        return
    yield from _whom(said["sanctioned"], known, swapped=swapped)


def _whom(said: str, known: Mapping[str, str], *, swapped: bool) -> Iterator[Wrong]:
    named, _, when = said.partition(" (")
    if named.startswith("both "):
        named = f"{named.split()[1]}.players"
    side, _, who = named.partition(".")
    found_side, _, found = known["whom"].partition(".")
    if found_side:
        yield from _same("whom", side, _side(found_side, swapped=swapped))
    if found not in SAME_PERSON.get(who, (who,)):
        yield ("whom", who, found)
    if when:
        yield from _same("whom", "next_stop", known["at_once"])


REPLACED: Final = {
    "eligible player only": ("eligible_player",),
    "named substitute allowed; substitution count not reduced": ("substitute_not_counted",),
    "named substitute or excluded player allowed": ("substitute_or_left_out",),
    "none": ("nobody",),
    "none; team plays short": ("nobody",),
}
RESUMES: Final = {
    "shootout": "kicks",
    "unchanged": "as_it_was",
    "as_before": "as_it_was",
    "by_offence": "as_it_was",
    "do_not_allow": "as_it_was",
    "match_not_continued": "not_continued",
}


def _persons(row: Row, known: Mapping[str, str], reading: Reading) -> Iterator[Wrong]:
    said = row["ruling"]
    wanted = RESUMES.get(said["restart"], said["restart"])
    if not (wanted == "kicks" and known["resumes"] == "as_it_was"):
        yield from _same("restart", wanted, known["resumes"])
    if said["restart"] == "kick_off":
        side = {"winner": "A", "other": "B"}[known["kicks_off"]]
        yield from _same("side", said["awarded_to"], _side(side, swapped=reading.swapped))
    if said["restart"] == "do_not_allow":
        yield from _same("persons", "no", known["allowed"])
    yield from _same("sanction", said["sanction"], known["dealt"])
    for key, wanted in _wanted(said):
        if known[key] not in wanted:
            yield ("persons", wanted, known[key])
    if "reduce" in said:
        counts = {"A": row["facts"]["a_players"], "B": row["facts"]["b_players"]}
        larger = max(counts, key=lambda side: counts[side])
        cut = {"team": larger, "exclude": max(counts.values()) - min(counts.values())}
        yield from _same("persons", said["reduce"], cut)


def _wanted(said: Row) -> Iterator[tuple[str, tuple[str, ...]]]:
    if "eligible" in said:
        yield "allowed", ("yes",) if said["eligible"] else ("no",)
    if said.get("allowed") or said.get("abandon") is False or "toss_1" in said:
        yield "allowed", ("yes",)
    if "replacement" in said:
        yield "replaced_by", REPLACED[said["replacement"]]
    if "reduce" in said:
        yield "allowed", ("after_reducing",)
    if "delay" in said:
        yield "waits", ("substitute", "after_restart")
    if "report" in said:
        yield "reported", ("yes",)
