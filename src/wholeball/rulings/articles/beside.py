"""Declares what holds for persons and procedure beside play: Laws 1, 3, 5, 8 and 10."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.kicks import KICKS
from wholeball.rulings.articles.matters import beside, says_that

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
PERSONS: Final[tuple[Article, ...]] = (
    *(
        beside(
            f"{half}_half_after_{chose}",
            f"At the {half} half: {words}.",
            "Law 8.1",
            when={"chose": chose, "half": half},
            then=says_that(resumes="kick_off", kicks_off=side),
            path="ends",
            given={"ends.winner_chooses": f"{chose} end_or_kick_off"},
        )
        for chose, half, side, words in _KICK_OFFS
    ),
    *(
        beside(
            f"{half}_half_without_choice_of_{chose}",
            f"The winner of the toss chooses only the {other} here, and counts as having done so.",
            "Law 8.1",
            when={"chose": chose, "half": half},
            then=says_that(resumes="kick_off", kicks_off=side),
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
    beside(
        "started_untold",
        "A named substitute who starts or comes on at half-time untold plays on; it is reported.",
        "Law 3.3",
        when={"lapse": "untold_at_start untold_at_interval"},
        then=says_that(resumes="play_on", allowed="yes", reported="yes"),
    ),
    beside(
        "never_stepped_on",
        "A substitute steps on the field before taking a restart.",
        "Law 3.3",
        when={"lapse": "never_on"},
        then=says_that(allowed="no"),
        path="substitution",
    ),
    beside(
        "keeper_change_told",
        "A player may change places with the goalkeeper at a stop, once an official knows.",
        "Law 3.5",
        when={"lapse": "keeper_told"},
        then=says_that(allowed="yes"),
    ),
    beside(
        "other_procedure",
        "Other breaches of the procedure are an unsporting act.",
        "Law 3.6",
        when={"lapse": "other"},
        then=says_that(dealt="caution"),
        path="substitution",
    ),
    *(
        beside(
            f"slow_to_leave_{limit}",
            says,
            "Law 3.3",
            when={"matter": "leaving"},
            then=says_that(waits=waits),
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
        beside(
            f"replaces_{when}",
            f"{says}.",
            "Law 3.6",
            when={"when_sent": when},
            then=says_that(replaced_by=by, dealt="send_off"),
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
        beside(
            f"replaces_after_{may}",
            says,
            "Law 3.6",
            when={"when_sent": "after"},
            then=says_that(replaced_by=by, dealt="send_off"),
            path="cards.sent_off",
            given={"cards.sent_off.may_be_replaced": may},
        )
        for may, by, says in (
            ("no", "nobody", "After the kick-off the side plays on with one fewer."),
            ("yes", "anybody_after_a_time", "After a time the side fills up again here."),
        )
    ),
    beside(
        "replaces_keeper_in_kicks",
        "In the kicks from the mark a goalkeeper sent off is replaced by an eligible player.",
        "Law 10.3",
        when={"when_sent": "keeper_in_kicks"},
        then=says_that(resumes="kicks", replaced_by="eligible_player", dealt="send_off"),
        path="kicks",
    ),
    *(
        beside(
            f"treated_stays_off_{seconds}",
            says,
            "Law 5.3",
            when={"matter": "treated"},
            then=says_that(waits=waits),
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
    beside(
        "enough_players",
        "A side with enough players goes on.",
        "Law 3.1",
        when={"stands": "enough"},
        then=says_that(allowed="yes"),
        path="sides",
    ),
    beside(
        "too_few_players",
        "A game does not go on with fewer players than allowed.",
        "Law 3.1",
        when={"stands": "too_few"},
        then=says_that(resumes="not_continued", allowed="no"),
        path="sides",
    ),
    *KICKS,
    *(
        beside(
            f"decision_{name}",
            says,
            "Law 5.2",
            when={"restarted": restarted},
            then=says_that(resumes=resumes, allowed=allowed),
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
    beside(
        "flagpost_moved",
        "A flagpost stays where it stands.",
        "Laws 1.8 and 17.1",
        when={"matter": "flagpost"},
        then=says_that(allowed="no"),
    ),
)
