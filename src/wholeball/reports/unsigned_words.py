"""Says whose signature a scorecard lacks; who signs is common practice, no source."""

from typing import Final

from wholeball.game.happenings import Signer
from wholeball.reports.game_entries import SIGNERS, capital
from wholeball.reports.game_told import ToldGame

_ASKED: Final[tuple[Signer, ...]] = ("home_captain", "away_captain", "official")


def unsigned_words(told: ToldGame) -> tuple[str, ...]:
    """Return a sentence for each who has not signed, or would not, in the order of the sheet."""
    signed = {one.by: one.refused for one in told.state.signatures}
    return tuple(
        f"{capital(SIGNERS[one])} has not signed the scorecard."
        if one not in signed
        else f"{capital(SIGNERS[one])} refused to sign the scorecard."
        for one in _ASKED
        if one not in signed or signed[one] is not None
    )
