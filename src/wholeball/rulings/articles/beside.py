"""Declares what holds for persons and procedure beside play: Laws 1, 3, 5, 8 and 10."""

from collections.abc import Mapping
from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import of_stage

_beside = of_stage("beside")
_TAKERS: Final = "kicks.takers"
_NOBODY: Final = {
    "resumes": "as_it_was",
    "kicks_off": "none",
    "allowed": "unasked",
    "replaced_by": "unasked",
    "waits": "no",
    "reported": "no",
    "dealt": "none",
}


def _says(**parts: str) -> Mapping[str, str]:
    return {**_NOBODY, **parts}


_KICK_OFFS: Final = (
    (
        "end",
        "first",
        "other",
        "the side that lost the toss kicks off, as the other chose an end",
    ),
    ("end", "second", "winner", "the side that chose an end kicks off"),
    ("kick_off", "first", "winner", "the side that chose the kick-off takes it"),
    (
        "kick_off",
        "second",
        "other",
        "the side that did not take the first kick-off takes this one",
    ),
)
_MAY_KICK: Final = (
    ("on_field", "yes", "who was on the field at the end may kick"),
    ("briefly_off", "yes", "who was off only briefly at the end may kick"),
    ("sent_off", "no", "who was sent off may not kick"),
)

PERSONS: Final[tuple[Article, ...]] = (
    *(
        _beside(
            f"{half}_half_after_{chose}",
            f"At the {half} half: {words}.",
            "Law 8.1",
            when={"chose": chose, "half": half},
            then=_says(resumes="kick_off", kicks_off=side),
            path="ends",
            given={"ends.winner_chooses": f"{chose} end_or_kick_off"},
        )
        for chose, half, side, words in _KICK_OFFS
    ),
    *(
        _beside(
            f"{half}_half_without_choice_of_{chose}",
            f"The winner of the toss chooses only the {other} here, and counts as having done so.",
            "Law 8.1",
            when={"chose": chose, "half": half},
            then=_says(resumes="kick_off", kicks_off=side),
            path="ends",
            given={"ends.winner_chooses": other},
        )
        for chose, other, half, side in (
            ("kick_off", "end", "first", "other"),
            ("kick_off", "end", "second", "winner"),
            ("end", "kick_off", "first", "winner"),
            ("end", "kick_off", "second", "other"),
        )
    ),
    _beside(
        "started_untold",
        "A named substitute who starts or comes on at half-time untold plays on; it is reported.",
        "Law 3.3",
        when={"lapse": "untold_at_start untold_at_interval"},
        then=_says(resumes="play_on", allowed="yes", reported="yes"),
    ),
    _beside(
        "never_stepped_on",
        "A substitute steps on the field before taking a restart.",
        "Law 3.3",
        when={"lapse": "never_on"},
        then=_says(allowed="no"),
        path="substitution",
    ),
    _beside(
        "keeper_change_told",
        "A player may change places with the goalkeeper at a stop, once an official knows.",
        "Law 3.5",
        when={"lapse": "keeper_told"},
        then=_says(allowed="yes"),
    ),
    _beside(
        "other_procedure",
        "Other breaches of the procedure are an unsporting act.",
        "Law 3.6",
        when={"lapse": "other"},
        then=_says(dealt="caution"),
        path="substitution",
    ),
    *(
        _beside(
            f"slow_to_leave_{limit}",
            says,
            "Law 3.3",
            when={"matter": "leaving"},
            then=_says(waits=waits),
            path="substitution.leaving",
            given={"substitution.leaving.too_slow_waits_seconds": limit},
        )
        for limit, waits, says in (
            ("none", "no", "A player who is replaced has no fixed time to leave."),
            (
                "some",
                "substitute",
                "The substitute waits for a stop after the time has passed.",
            ),
        )
    ),
    *(
        _beside(
            f"replaces_{when}",
            f"{says}.",
            "Law 3.6",
            when={"when_sent": when},
            then=_says(replaced_by=by, dealt="send_off"),
        )
        for when, by, says in (
            (
                "before",
                "substitute_not_counted",
                "Before the kick-off a named substitute may replace the player",
            ),
            ("substitute", "nobody", "Nobody replaces a substitute"),
        )
    ),
    *(
        _beside(
            f"replaces_after_{may}",
            says,
            "Law 3.6",
            when={"when_sent": "after"},
            then=_says(replaced_by=by, dealt="send_off"),
            path="cards.sent_off",
            given={"cards.sent_off.may_be_replaced": may},
        )
        for may, by, says in (
            ("no", "nobody", "After the kick-off the side plays on with one fewer."),
            ("yes", "anybody_after_a_time", "After a time the side fills up again here."),
        )
    ),
    _beside(
        "replaces_keeper_in_kicks",
        "In the kicks from the mark a goalkeeper sent off is replaced by an eligible player.",
        "Law 10.3",
        when={"when_sent": "keeper_in_kicks"},
        then=_says(resumes="kicks", replaced_by="eligible_player", dealt="send_off"),
        path="kicks",
    ),
    *(
        _beside(
            f"treated_stays_off_{seconds}",
            says,
            "Law 5.3",
            when={"matter": "treated"},
            then=_says(waits=waits),
            path="injury",
            given={"injury.off_after_restart_seconds": seconds},
        )
        for seconds, waits, says in (
            (
                "none",
                "until_restart",
                "Who was treated comes back with permission once play goes on.",
            ),
            (
                "some",
                "after_restart",
                "Who was treated stays off for a time after the restart.",
            ),
        )
    ),
    _beside(
        "enough_players",
        "A side with enough players goes on.",
        "Law 3.1",
        when={"stands": "enough"},
        then=_says(allowed="yes"),
        path="sides",
    ),
    _beside(
        "too_few_players",
        "A game does not go on with fewer players than allowed.",
        "Law 3.1",
        when={"stands": "too_few"},
        then=_says(resumes="not_continued", allowed="no"),
        path="sides",
    ),
    _beside(
        "too_few_in_kicks",
        "Kicks from the mark go on with however few there are.",
        "Law 10.3",
        when={"stands": "too_few_in_kicks"},
        then=_says(resumes="kicks", allowed="yes"),
        path="kicks",
    ),
    *(
        _beside(
            f"unequal_{rule}",
            says,
            "Law 10.3",
            when={"stands": "unequal"},
            then=_says(resumes="kicks", allowed=allowed),
            path=_TAKERS,
            given={f"{_TAKERS}.equal_numbers": rule},
        )
        for rule, allowed, says in (
            ("larger_side_reduces", "after_reducing", "The larger side leaves players out."),
            ("not_asked", "yes", "Nobody asks for equal numbers."),
        )
    ),
    *(
        _beside(
            f"may_kick_{who}",
            f"{says[0].upper()}{says[1:]}.",
            "Law 10.3",
            when={"kicker_is": who},
            then=_says(resumes="kicks", allowed=allowed),
            path=_TAKERS,
        )
        for who, allowed, says in _MAY_KICK
    ),
    *(
        _beside(
            f"substitute_kicks_{who}",
            says,
            "Law 10.3",
            when={"kicker_is": "substitute"},
            then=_says(resumes="kicks", allowed=allowed),
            path=_TAKERS,
            given={f"{_TAKERS}.who": who},
        )
        for who, allowed, says in (
            ("on_field_at_end", "no", "Who was not on the field at the end may not kick."),
            ("whole_roster_present", "yes", "Everybody on the roster who is there may kick."),
        )
    ),
    _beside(
        "kicks_twice_too_early",
        "Nobody kicks again before all of the side who may have kicked.",
        "Law 10.3",
        when={"kicker_is": "has_kicked"},
        then=_says(resumes="kicks", allowed="no"),
        path=_TAKERS,
    ),
    *(
        _beside(
            f"unable_keeper_changes_{left}",
            says,
            "Law 10.3",
            when={"changes_left": left},
            then=_says(resumes="kicks", replaced_by=by),
            path="kicks",
        )
        for left, by, says in (
            (
                "yes",
                "substitute_or_left_out",
                "A substitute or a player left out takes the gloves.",
            ),
            ("no", "left_out", "A player left out, or one of the others, takes the gloves."),
        )
    ),
    _beside(
        "unable_kicker",
        "Nobody replaces another player in the kicks from the mark.",
        "Law 10.3",
        when={"unable_is": "other"},
        then=_says(resumes="kicks", replaced_by="nobody"),
        path="kicks",
    ),
    _beside(
        "order_changes",
        "The order may change from one round to the next.",
        "Law 10.3",
        when={"matter": "order"},
        then=_says(resumes="kicks", allowed="yes"),
        path=_TAKERS,
    ),
    _beside(
        "two_tosses",
        "One toss decides the goal, a second who kicks first.",
        "Law 10.3",
        when={"matter": "tosses"},
        then=_says(resumes="kicks", allowed="yes"),
        path="kicks",
    ),
    _beside(
        "ways_to_win",
        "Away goals, two equal periods of at most 15 minutes, kicks from the mark, or several "
        "of these may decide a level game.",
        "Law 10.2",
        when={"matter": "winner"},
        then=_says(resumes="kicks", allowed="yes"),
        path="overtime",
    ),
    *(
        _beside(
            f"decision_{name}",
            says,
            "Law 5.2",
            when={"restarted": restarted},
            then=_says(resumes=resumes, allowed=allowed),
        )
        for restarted, name, resumes, allowed, says in (
            (
                "no",
                "may_change",
                "decision_may_change",
                "yes",
                "Before the restart it may change.",
            ),
            ("yes", "stands", "decision_stands", "no", "After the restart a decision stands."),
        )
    ),
    _beside(
        "flagpost_moved",
        "A flagpost stays where it stands.",
        "Laws 1.8 and 17.1",
        when={"matter": "flagpost"},
        then=_says(allowed="no"),
    ),
)
