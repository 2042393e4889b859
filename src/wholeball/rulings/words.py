"""Says a finding and a proof in plain words, from the words of the facts."""

from collections.abc import Iterator

from wholeball.rulings.proof import Finding, Proof
from wholeball.rulings.situation_words import situation_in_words
from wholeball.rulings.space import Space


def finding_in_words(finding: Finding, space: Space) -> str:
    """Return what is wrong and, where there is one, a situation in which it shows."""
    words = situation_in_words(finding.situation, space)
    return f"{finding.code}: {finding.about}. {words}".strip()


def proof_in_words(proof: Proof, space: Space) -> Iterator[str]:
    """Yield the proof as lines: what was walked, then every finding."""
    paths = sum(stage.paths for stage in proof.stages)
    whole = proof.stages[-1].stands_for
    yield (
        f"{proof.space}: {proof.claims} articles, {len(proof.decides)} facts asked, "
        f"{paths:,} paths by stage for {whole:,} situations, {proof.rulings} rulings "
        f"({proof.rulings_with_articles} by their articles), "
        f"{proof.count('gap')} gaps, {proof.count('conflict')} conflicts."
    )
    for stage in proof.stages:
        yield f"  {stage.stage}: {stage.paths:,} paths for {stage.stands_for:,}"
    for finding in proof.findings:
        yield f"  {finding_in_words(finding, space)}"
