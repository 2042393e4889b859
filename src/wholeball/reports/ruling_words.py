"""Says a ruling in plain words: what follows, for whom, where, and what an official does."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from textwrap import fill
from typing import Final

from wholeball.reports import ruling_phrases as phrases
from wholeball.reports import signals
from wholeball.reports.article import Differs
from wholeball.reports.kicked_in import as_put_in
from wholeball.reports.plain import INDENT, WIDTH
from wholeball.reports.ruling_care import cautions
from wholeball.reports.safety import LOCAL_FIRST, Caution
from wholeball.reports.signals import Signal
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.words.lookup import words
from wholeball.rulings.article import Claim
from wholeball.rulings.ruling import Ruling

_REASONS: Final = ("play", "beside")
"""The stages whose article is the reason of a ruling."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArticleWords:
    """An article of a ruling: where it stands, its heading if it has one, what it says here."""

    ref: str
    title: str | None
    says: str

    def __str__(self) -> str:
        head = self.ref if self.title is None else f"{self.ref}, {self.title}"
        return f"{head}: {self.says}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RulingWords:
    """A ruling in words.

    `decision` is goal, restart, side and place; `shown` yellow and red; `say` the one sentence
    for the players; `care` what is done for people, `cautions` what to be careful about.
    """

    decision: tuple[str, ...]
    shown: str
    signals: tuple[Signal, ...]
    say: str
    articles: tuple[ArticleWords, ...]
    care: str
    cautions: tuple[Caution, ...]


def ruling_words(ruling: Ruling, facts: Mapping[str, str], book: Rulebook) -> RulingWords:
    """Return the words that a rulebook has for a ruling of the situation with these facts."""
    said = decision(ruling.answers, facts)
    is_of_play = "restart" in ruling.answers
    articles = (_article(one, book) for one in ruling.articles if _says_something(one))
    return RulingWords(
        decision=tuple(as_put_in(sentence, book) for sentence in said),
        shown=_shown(ruling.answers) if is_of_play else "",
        signals=tuple(_signals(ruling.answers, facts, book)) if is_of_play else (),
        say=as_put_in(_say(ruling, facts), book),
        articles=tuple(dict.fromkeys(articles)),
        care=phrases.CARE[ruling.answers.get("care", "none")],
        cautions=cautions(facts),
    )


def decision(answers: Mapping[str, str], facts: Mapping[str, str]) -> tuple[str, ...]:
    """Return in sentences what the answers of a ruling decide, yellow and red aside."""
    if "restart" not in answers:
        found = (table.get(answers[part]) for part, table in phrases.BESIDE.items())
        return tuple(sentence for sentence in found if sentence) or ("Nothing changes.",)
    goal = {"A": f"Goal for {_side('A', facts)}.", "B": f"Goal for {_side('B', facts)}."}
    said = (
        {**goal, "no": "No goal.", "none": ""}[answers["goal"]],
        "" if answers["resumed"] == "shootout" else f"{_capital(_restart(answers, facts))}.",
        phrases.RESUMED[answers["resumed"]],
        phrases.KICK[answers["kick"]],
    )
    return tuple(sentence for sentence in said if sentence)


def summary(answers: Mapping[str, str], facts: Mapping[str, str]) -> str:
    """Return in one line what a ruling decides, yellow and red included."""
    shown = _shown(answers) if "restart" in answers else ""
    return " ".join((*decision(answers, facts), shown)).strip()


def lines(said: RulingWords) -> Iterator[str]:
    """Yield a ruling for the terminal, a line at most 88 characters wide."""
    yield _filled(" ".join(said.decision))
    if said.shown:
        yield _filled(said.shown)
    if said.signals:
        yield _filled(f"Signal: {' '.join(signal.says for signal in said.signals)}")
    yield _filled(f'Say: "{said.say}"')
    yield "Articles"
    yield from (indented(str(article)) for article in said.articles)
    if said.care or said.cautions:
        yield "Take care"
        yield from (indented(line) for line in (said.care,) if line)
        yield from (indented(f"{one.title}: {one.says}") for one in said.cautions)
        yield indented(LOCAL_FIRST)


def different_lines(laws: Iterable[str], articles: Iterable[Differs]) -> Iterator[str]:
    """Yield what is different here: what the Laws would rule, and the articles that differ."""
    yield "This is different here"
    told = " Or: ".join(laws)
    yield indented(
        f"By the Laws: {told}" if told else "The Laws rule the same by other values."
    )
    for one in articles:
        here, there = (" ".join(map(str, side)) for side in (one.here, one.laws))
        yield indented(f"{one.told.ref}, {one.told.title}: {here}")
        yield indented(f"{one.laws_ref}, the Laws: {there}")


def _restart(answers: Mapping[str, str], facts: Mapping[str, str]) -> str:
    restart = answers["restart"]
    if restart in phrases.WHOLE:
        return phrases.WHOLE[restart]
    place = phrases.SPOTS.get(answers["spot"], "")
    if restart == "retake":
        again = f"the {_kind(facts)} is taken again"
        return f"{again}, {place}" if place else again
    taker = _taker(answers["taker"], facts)
    return f"{phrases.RESTARTS[restart]} for {taker}, {place}"


def _taker(taker: str, facts: Mapping[str, str]) -> str:
    return _side(taker, facts) if taker in ("A", "B") else phrases.TAKERS[taker]


def _side(side: str, facts: Mapping[str, str]) -> str:
    if side == "B":
        return phrases.OTHER
    return phrases.ACTING.get(facts.get("seen", ""), phrases.OFFENDING)


def _kind(facts: Mapping[str, str]) -> str:
    """Return what was taken; several restarts may be ruled alike before anybody asks which."""
    return phrases.RESTARTS.get(facts.get("kind", ""), "restart")


def _shown(answers: Mapping[str, str]) -> str:
    whom = phrases.WHOM.get(answers["whom"], "")
    return phrases.SHOWN[answers["shown"]].format(
        whom=whom, when=phrases.AT_ONCE[answers["at_once"]]
    )


def _signals(
    answers: Mapping[str, str], facts: Mapping[str, str], book: Rulebook
) -> Iterator[Signal]:
    for signal in _signals_of(answers, facts):
        yield replace(signal, says=as_put_in(signal.says, book))


def _signals_of(answers: Mapping[str, str], facts: Mapping[str, str]) -> tuple[Signal, ...]:
    reason = signals.OF_REASON.get(facts.get("reason", ""))
    if reason is not None:
        return (reason,)
    restart = answers["restart"]
    was_open = facts.get("moment") != "dead"
    found = [
        signals.WHISTLE if restart in signals.NEEDS_WHISTLE and was_open else None,
        signals.ADVANTAGE
        if restart == "play_on" and facts.get("advantage") == "yes"
        else signals.OF_RESTART.get(restart),
        signals.OF_SHOWN.get(answers["shown"]),
    ]
    return tuple(signal for signal in found if signal is not None)


def _say(ruling: Ruling, facts: Mapping[str, str]) -> str:
    """Return the decision and its reason in one sentence, without place and procedure.

    Where people need care, that is what they are told.
    """
    care = phrases.CARE[ruling.answers.get("care", "none")]
    reason = next((one.says for one in ruling.articles if one.stage in _REASONS), "")
    if "restart" not in ruling.answers:
        return reason
    brief = _brief(ruling, facts)
    if care or (reason and brief in reason.lower()):
        return care or reason
    if not reason:
        return f"{_capital(brief)}."
    return f"{_capital(brief)}: {reason[0].lower()}{reason[1:]}"


def _brief(ruling: Ruling, facts: Mapping[str, str]) -> str:
    restart, goal = ruling["restart"], ruling["goal"]
    if goal in ("A", "B"):
        return f"goal for {_side(goal, facts)}"
    no_goal = "no goal, " if goal == "no" else ""
    if restart in phrases.WHOLE:
        return no_goal + phrases.WHOLE[restart]
    if restart == "retake":
        return f"{no_goal}the {_kind(facts)} is taken again"
    return f"{no_goal}{phrases.RESTARTS[restart]} for {_taker(ruling['taker'], facts)}"


def _says_something(claim: Claim) -> bool:
    """Tell whether an article does more than repeat the decision or say that nothing happens."""
    repeats = claim.path is None and claim.stage in ("spot", "shown")
    is_idle = all(value in ("none", "nobody", "as_ruled") for value in claim.then.values())
    return claim.stage == "play" or not (repeats or is_idle)


def _article(claim: Claim, book: Rulebook) -> ArticleWords:
    title = as_put_in(words(claim.path).title, book) if claim.path else None
    return ArticleWords(ref=claim.ref, title=title, says=as_put_in(claim.says, book))


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]


def _filled(text: str) -> str:
    return fill(text, WIDTH, break_on_hyphens=False)


def indented(text: str) -> str:
    """Return a text as an indented paragraph, a line at most 88 characters wide."""
    return fill(
        text,
        WIDTH,
        initial_indent=INDENT,
        subsequent_indent=INDENT * 2,
        break_on_hyphens=False,
    )
