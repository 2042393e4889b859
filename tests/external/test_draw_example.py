"""The worked example of a draw in the check data, from its secret to its order."""

from external.cases import read
from wholeball.season.draw import commit, draw, permutation

EXAMPLE = read("kernels/k08_k09_draw_geometry.json")["draw_example"]


def test_the_example_gives_its_commit_its_seed_and_its_permutation() -> None:
    n, label = EXAMPLE["n"], EXAMPLE["label"]
    committed = commit(label, [f"team {number:03}" for number in range(n)], EXAMPLE["secret"])
    drawn = draw(committed, secret=EXAMPLE["secret"], public=EXAMPLE["public"])
    assert (committed.commit, drawn.seed) == (EXAMPLE["commit"], EXAMPLE["seed"])
    assert drawn.order == tuple(f"team {place:03}" for place in EXAMPLE["perm"])
    assert list(permutation(bytes.fromhex(EXAMPLE["seed"]), label, n)) == EXAMPLE["perm"]
