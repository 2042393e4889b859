"""Asks an official what was seen, one question at a time, with numbered answers.

Plain lines in and out: it works over a slow terminal, and answers can be piped in.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from wholeball.kernel.nearest import nearest
from wholeball.reports.ruling_words import indented
from wholeball.rulebook.book import Rulebook
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import SPACES
from wholeball.usecases.ask_ruling import ABOUT, Asking, Question, Ruled, asking, phrases
from wholeball.usecases.propose_facts import Reading

_ALL_OR_NOTHING = ("y", "n")


class Stopped(Exception):
    """Whoever is asked has had enough."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dialogue:
    """Asks by `ask`, which shows a prompt and returns a line, and says by `tell`."""

    ask: Callable[[str], str]
    tell: Callable[[str], None]
    book: Rulebook
    opened: dict[str, Asking] = field(default_factory=dict)

    def ruled(
        self, facts: Mapping[str, str], taken: Mapping[str, str], space: Space | None
    ) -> Ruled:
        """Ask until there is a ruling; without a space, ask for that first.

        Going back ends before `taken`, what was agreed to, and never touches `facts`.

        Raises:
            Stopped: the answer was to stop.
            WholeballError: what was stated contradicts itself, or the rulebook has no answer.
        """
        while space is None:
            space = self._space()
        asks = self._asking(space)
        steps = [dict(facts), *([{**taken, **facts}] if taken else [])]
        while True:
            found = asks.next(steps[-1])
            if isinstance(found, Ruled):
                return found
            answer = self._answer(found, asks, steps[-1])
            if answer is not None:
                steps.append({**steps[-1], found.fact.name: answer})
            elif len(steps) > 1:
                steps.pop()
            else:
                self.tell("This is the first question; there is nothing to go back to.")

    def confirmed(self, readings: Sequence[Reading]) -> tuple[dict[str, str], Space | None]:
        """Return the facts of a reading that are agreed to, and the space they are of.

        Raises:
            Stopped: the answer was to stop.
        """
        if not readings:
            self.tell("Nothing in it is known here. The questions come one by one.")
            return {}, None
        at = 0
        while True:
            reading = readings[at % len(readings)]
            names = list(reading.facts)
            self._propose(reading, others=len(readings) > 1)
            taken = self._taken(self._line("Take: "), names)
            if taken is None:
                at += 1
            else:
                facts = {name: reading.facts[name] for name in taken}
                return facts, reading.space if taken else None

    def _propose(self, reading: Reading, *, others: bool) -> None:
        self.tell("It sounds like this:")
        for number, line in enumerate(phrases(reading.facts, reading.facts, reading.space), 1):
            self.tell(f"  {number}  {line}")
        other = ", o shows another reading" if others else ""
        self.tell(f"y takes all of it, numbers such as 1 3 take those, n nothing{other}.")

    def _taken(self, line: str, names: list[str]) -> list[str] | None:
        """Return the names that a line takes; None asks for another reading."""
        while True:
            if line in _ALL_OR_NOTHING:
                return names if line == "y" else []
            if line == "o":
                return None
            numbers = {int(word) if word.isdecimal() else 0 for word in line.split()}
            if numbers and numbers <= set(range(1, len(names) + 1)):
                return [names[number - 1] for number in sorted(numbers)]
            self.tell(f"Give y, n, o, or numbers from 1 to {len(names)}.")
            line = self._line("Take: ")

    def _space(self) -> Space | None:
        values = tuple(ABOUT)
        self._show("What is it about?", [ABOUT[value] for value in values])
        self.tell("  q ends.")
        chosen = self._chosen(self._line("> "), values, ABOUT)
        return next((space for space in SPACES if space.name == chosen), None)

    def _asking(self, space: Space) -> Asking:
        if space.name not in self.opened:
            self.opened[space.name] = asking(self.book, space)
        return self.opened[space.name]

    def _answer(self, question: Question, asks: Asking, facts: Mapping[str, str]) -> str | None:
        """Return the value that is chosen; None goes back."""
        said = question.fact.values
        while True:
            self._show(question.fact.question, [said[value] for value in question.values])
            unknown = "u: not known, " if question.may_be_unknown else ""
            self.tell(f"  b goes back, {unknown}q ends.")
            line = self._line("> ")
            if line == "b":
                return None
            if line == "u" and question.may_be_unknown:
                for told in _told(question, asks.depends(question, facts)):
                    self.tell(told)
                continue
            chosen = self._chosen(line, question.values, said)
            if chosen is not None:
                return chosen

    def _show(self, question: str, answers: list[str]) -> None:
        self.tell("")
        self.tell(question)
        for number, answer in enumerate(answers, 1):
            self.tell(f"  {number:>2}  {answer}")

    def _chosen(self, line: str, values: Sequence[str], said: Mapping[str, str]) -> str | None:
        """Return the value that a line names by number, name or phrase; else say what would."""
        by_word = {said[value].lower(): value for value in values} | {
            value: value for value in values
        }
        if line.isdecimal() and 1 <= int(line) <= len(values):
            return values[int(line) - 1]
        if line in by_word:
            return by_word[line]
        close = nearest(line, by_word)
        meant = f" Did you mean {values.index(by_word[close]) + 1}, {close}?" if close else ""
        self.tell(f"Give a number from 1 to {len(values)}.{meant}")
        return None

    def _line(self, prompt: str) -> str:
        line = self.ask(prompt).strip().lower()
        if line == "q":
            raise Stopped
        return line


def _told(question: Question, depends: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """Say what follows from each answer to a question that somebody cannot answer."""
    yield "Then it depends. An official rules on what was seen, not on what may have been:"
    for value, summaries in depends.items():
        ruled = " Or: ".join(summaries) or "more would have to be known."
        yield indented(f"{question.fact.values[value]}: {ruled}")
