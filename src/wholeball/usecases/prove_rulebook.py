"""Proves that a rulebook gives exactly one ruling for every situation."""

from dataclasses import dataclass

from wholeball.files.rulebook_file import read_rulebook
from wholeball.rulings.bind import bind
from wholeball.rulings.proof import Proof, prove
from wholeball.rulings.spaces import PROVED
from wholeball.rulings.words import finding_in_words, proof_in_words


@dataclass(frozen=True, slots=True, kw_only=True)
class Proved:
    """The proofs of a rulebook, one for each space of facts."""

    name: str
    proofs: tuple[Proof, ...]

    @property
    def is_in_order(self) -> bool:
        """Whether every situation has exactly one ruling and nothing is asked in vain."""
        return not any(proof.has_errors for proof in self.proofs)

    @property
    def lines(self) -> list[str]:
        """The proofs in words."""
        pairs = zip(self.proofs, PROVED, strict=True)
        return [line for proof, space in pairs for line in proof_in_words(proof, space)]

    def as_values(self) -> dict[str, object]:
        """Return the proofs as plain values, for JSON."""
        return {
            "ok": self.is_in_order,
            "name": self.name,
            "spaces": [
                {
                    "space": proof.space,
                    "articles": proof.claims,
                    "stages": [
                        {"stage": one.stage, "paths": one.paths, "stands_for": one.stands_for}
                        for one in proof.stages
                    ],
                    "rulings": proof.rulings,
                    "rulings_with_articles": proof.rulings_with_articles,
                    "gaps": proof.count("gap"),
                    "conflicts": proof.count("conflict"),
                    "decides": dict(proof.decides),
                    "alike": [list(pair) for pair in proof.alike],
                    "findings": [
                        {
                            "code": finding.code,
                            "about": finding.about,
                            "situation": dict(finding.situation),
                            "words": finding_in_words(finding, space),
                        }
                        for finding in proof.findings
                    ],
                }
                for proof, space in zip(self.proofs, PROVED, strict=True)
            ],
        }


def prove_rulebook(name: str) -> Proved:
    """Return the proofs of a rulebook's file, or of an edition.

    Raises:
        InputFaults: everything that is wrong with the file.
        WholeballError: there is no such file.
    """
    book = read_rulebook(name).rulebook
    proofs = tuple(prove(bind(space, book)) for space in PROVED)
    return Proved(name=book.head.name, proofs=proofs)
