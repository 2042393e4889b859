"""Keeps what is written down beside the play: protests, ratings, records, signatures."""

from decimal import Decimal

from wholeball.game.event import Event
from wholeball.game.happenings import IncidentNoted, Protested, Rated, Signed, SignRefused
from wholeball.game.ledger import Ledger
from wholeball.game.state import PrivateRecord, ProtestLine, Rating, Signature


def protest(game: Ledger, event: Event, what: Protested) -> None:
    """Write a protest down with its moment and the score then."""
    rule = game.rules.book.protests
    if what.about not in rule.about:
        game.ask("not_protestable", event.at, event.id, article="protests", side=what.side)
    if rule.by == "captain" and what.by != "captain":
        game.ask("protest_by", event.at, event.id, article="protests", side=what.side)
    game.protests.append(
        ProtestLine(
            event=event.id,
            at=event.at,
            side=what.side,
            about=what.about,
            score=game.score,
        )
    )
    game.state_that("protest", event.at, "protests", side=what.side, event=event.id)


def rate(game: Ledger, event: Event, what: Rated) -> None:
    """Write a rating down, and ask about one that the rulebook would not have."""
    rule = game.rules.book.ratings
    given = Decimal(what.hundredths).scaleb(-2)
    codes = []
    if what.by not in _raters(rule.by):
        codes.append(("rating_by", False))
    elif not rule.scale.has(given):
        codes.append(("rating_range", False))
    else:
        if given <= rule.reason_at_or_below and not what.reason.strip():
            codes.append(("rating_reason", True))
        if game.sides[what.side].has_red and given > rule.cap_after_sending_off:
            codes.append(("rating_cap", True))
        if any(one.at == event.at for one in _given(game, what)):
            codes.append(("rated_twice", True))
    answers = [
        game.ask(code, event.at, event.id, article="ratings", side=what.side, counts=counts)
        for code, counts in codes
    ]
    if all(answers):
        earlier = [one for one in _given(game, what) if one.at < event.at]
        game.ratings = [one for one in game.ratings if one not in earlier]
        game.ratings.append(
            Rating(
                event=event.id,
                at=event.at,
                side=what.side,
                by=what.by,
                hundredths=what.hundredths,
                reason=what.reason,
            )
        )


def _given(game: Ledger, what: Rated) -> list[Rating]:
    """Return what the same rater gave the same side so far; a later moment replaces it."""
    return [one for one in game.ratings if (one.side, one.by) == (what.side, what.by)]


def _raters(by: str) -> tuple[str, ...]:
    officials, opponents = ("official", "second_official"), ("opponent",)
    return {
        "nobody": (),
        "officials": officials,
        "opponents": opponents,
        "officials_and_opponents": officials + opponents,
    }[by]


def note_incident(game: Ledger, event: Event, what: IncidentNoted) -> None:
    """Keep where the private record of an incident is."""
    game.records.append(
        PrivateRecord(event=event.id, at=event.at, kind="incident", record=what.record)
    )


def sign(game: Ledger, event: Event, what: Signed) -> None:
    """Keep a signature."""
    game.signatures.append(Signature(event=event.id, by=what.by, state=what.state))


def refuse(game: Ledger, event: Event, what: SignRefused) -> None:
    """Keep a refusal with its reason; the result stands all the same."""
    game.ask("unsigned", event.at, event.id)
    game.signatures.append(Signature(event=event.id, by=what.by, state="", refused=what.reason))
