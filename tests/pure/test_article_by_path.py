"""Articles are found by their paths. No outside source: it is about our own words."""

import pytest

from wholeball.rulebook.editions import NEWEST, edition


def test_each_article_is_found_by_its_path() -> None:
    laws = edition(NEWEST)
    walked = dict(laws.articles())
    assert len(walked) > 70
    assert {path: laws.article(path) for path in walked} == walked


@pytest.mark.parametrize(
    "path", ["", "nothing", "mercy.", ".mercy", "mercy.lead", "also", "digest", "mercy.mercy"]
)
def test_what_is_no_article_is_no_path_of_one(path: str) -> None:
    with pytest.raises(KeyError, match=f"^'{path}'$"):
        edition(NEWEST).article(path)
