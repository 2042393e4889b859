"""The study: what happened is asked and ruled as the engine rules; what is different is shown."""

import random
import re
from html import unescape
from typing import Final

import pytest
from django.test import Client
from django.utils.http import urlencode

from cases.desk_season import ROLES, member
from cases.stored import a_season, written_by
from cases.study_season import (
    DIFFERENT,
    HERE,
    a_study,
    answers_on,
    hidden_on,
    preset,
    verdict_on,
    walked,
)
from wholeball.files.rulebook_file import read_rulebook
from wholeball.reports.kicked_in import as_put_in
from wholeball.reports.ruling_words import decision
from wholeball.rulebook.load import load
from wholeball.rulings.bind import bind
from wholeball.rulings.cases import cases
from wholeball.rulings.ruling import Ruling, Situation, rule
from wholeball.rulings.spaces import GAME, PERSONS_SPACE, SPACES
from wholeball.training.different import different
from wholeball.usecases.ask_ruling import ABOUT, Ruled, asking, kept_asking
from wholeball.usecases.by_digest import by_digest
from wholeball.usecases.propose_facts import readings

pytestmark = pytest.mark.django_db
MOST: Final = 60_000
"""Bytes of a page without its pictures."""
HOUSE: Final = "seven"
BOOK: Final = load(preset(HOUSE), file="rulebook.toml").rulebook
EVERY: Final = {space.name: cases(bind(space, BOOK)) for space in SPACES}
PICTURE: Final = re.compile(r'<svg xmlns=.*?class="drawn".*?</figure>', re.DOTALL)
TOKEN: Final = re.compile(r'csrfmiddlewaretoken" value="[^"]*"')
SCORE: Final = random.Random(20_261_126)


@pytest.fixture
def official() -> Client:
    return member(a_study(preset(HOUSE)), "official")


def text_of(client: Client, address: str = HERE) -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def test_the_ruling_on_the_page_is_that_of_the_engine_on_random_walks(official: Client) -> None:
    chosen = [("game", one) for one in SCORE.sample(EVERY["game"], 40)]
    chosen += [("persons", one) for one in SCORE.sample(EVERY["persons"], 10)]
    for about, case in chosen:
        space = GAME if about == "game" else PERSONS_SPACE
        ruled = rule(Situation(facts=case.facts), BOOK, space)
        assert isinstance(ruled, Ruling)
        page, sent = walked(official, dict(case.facts), about)
        told = {name: value for name, value in sent.items() if name != "about"}
        assert told.items() <= case.facts.items()
        found = kept_asking(by_digest(BOOK), about).next(told)
        assert isinstance(found, Ruled)
        assert found.ruling.answers == ruled.answers
        said = " ".join(as_put_in(one, BOOK) for one in decision(ruled.answers, found.asked))
        assert verdict_on(page) == said
        for article in found.words.articles:
            assert article.ref in unescape(page)
            assert article.says in unescape(page)
        assert found.words.shown in unescape(page)
        assert all(one.says in unescape(page) for one in found.words.cautions)


def test_each_page_of_a_walk_is_small_and_sketches_what_was_said(official: Client) -> None:
    for case in SCORE.sample(EVERY["game"], 6):
        _, sent = walked(official, dict(case.facts), "game")
        pairs = list(sent.items())
        for count in range(1, len(pairs) + 1):
            page = text_of(official, f"{HERE}?{urlencode(pairs[:count])}")
            assert len(PICTURE.sub("", page).encode()) < MOST
            has_seen = any(name == "seen" for name, _ in pairs[:count])
            assert bool(PICTURE.search(page)) >= has_seen
            is_sketch = "<title>What was said so far</title>" in page
            assert is_sketch == (bool(PICTURE.search(page)) and not verdict_on(page))


def test_a_sketch_shows_no_restart_nor_what_is_shown(official: Client) -> None:
    page = text_of(official, f"{HERE}?about=game&seen=foul&moment=open")
    assert 'class="drawn"' in page
    assert ('class="place"' in page, 'class="card' in page) == (False, False)


def test_a_sketch_names_a_line_once_somebody_did(official: Client) -> None:
    before = text_of(official, f"{HERE}?about=game&seen=ball_over&whole=yes")
    after = text_of(official, f"{HERE}?about=game&seen=ball_over&whole=yes&line=touch")
    assert ("all of the" in before, "all of the touchline." in after) == (False, True)


def test_questions_and_answers_are_those_of_the_command_line(official: Client) -> None:
    first = text_of(official)
    assert [answers_on(first)[name][1].lower() for name in ABOUT] == [
        says.lower() for says in ABOUT.values()
    ]
    asked = asking(BOOK, GAME).next({})
    assert not isinstance(asked, Ruled)
    page = text_of(official, f"{HERE}?about=game")
    assert asked.fact.question in unescape(page)
    offered = [(value, says.lower()) for value, (_, says) in answers_on(page).items()]
    wanted = [(one, as_put_in(asked.fact.values[one], BOOK).lower()) for one in asked.values]
    assert offered == wanted


def test_back_takes_one_answer_back_and_start_again_takes_all(official: Client) -> None:
    page = text_of(official, f"{HERE}?about=game&seen=foul&moment=open")
    assert '<a class="button plain" href="?about=game&amp;seen=foul">Back one step</a>' in page
    assert f'<a class="button plain" href="{HERE}">Start again</a>' in page
    assert '<a class="go" href="?about=game">Change' in page
    assert hidden_on(page) == {"about": "game", "seen": "foul", "moment": "open"}


def test_a_text_is_read_as_the_command_line_reads_it_and_nothing_of_it_is_taken(
    official: Client,
) -> None:
    said = "keeper picked up a back pass"
    page = text_of(official, f"{HERE}?{urlencode({'said': said})}")
    for reading in readings(said):
        for name, value in reading.facts.items():
            assert f'<input type="checkbox" name="{name}" value="{value}" checked>' in page
    assert "It sounds like this" in page
    assert verdict_on(page) == ""


def test_back_from_what_was_taken_of_a_text_leads_to_the_readings_of_it(
    official: Client,
) -> None:
    page = text_of(official, f"{HERE}?about=game&seen=foul&moment=open&said=a+trip")
    assert 'href="?said=a+trip">Back one step</a>' in page
    assert 'href="?said=a+trip">Change' in page
    page = text_of(official, f"{HERE}?about=game&seen=foul&said=a+trip&moment=open")
    assert 'href="?about=game&amp;seen=foul&amp;said=a+trip">Back one step</a>' in page


def test_a_text_of_which_nothing_is_known_says_so_and_offers_the_questions(
    official: Client,
) -> None:
    page = text_of(official, f"{HERE}?said=zzz")
    assert "Nothing in it is known here." in page
    assert set(answers_on(page)) == set(ABOUT)


def test_nobody_saw_that_tells_what_it_depends_on(official: Client) -> None:
    facts = {"seen": "ball_over", "whole": "yes"}
    asks = asking(BOOK, GAME)
    question = asks.next(facts)
    assert not isinstance(question, Ruled)
    page = unescape(
        text_of(official, f"{HERE}?{urlencode({'about': 'game', **facts, 'unknown': 'yes'})}")
    )
    assert "it depends" in page
    for value, told in asks.depends(question, facts).items():
        assert answers_on(page)[value][0] == question.fact.name
        assert all(one in page for one in told)
    assert 'href="?about=game&seen=ball_over&whole=yes">Back one step</a>' in page


def test_the_safety_words_stand_where_the_command_line_has_them(official: Client) -> None:
    facts = next(one.facts for one in EVERY["game"] if one.facts.get("reason") == "head")
    page, _ = walked(official, dict(facts), "game")
    assert "<strong>Head injury.</strong>" in page
    assert "own policy comes first" in unescape(page)
    facts = next(one.facts for one in EVERY["game"] if one.facts["seen"] == "offside")
    page, _ = walked(official, dict(facts), "game")
    assert "Take care" not in page


def test_answers_that_contradict_each_other_are_told_with_the_way_back(
    official: Client,
) -> None:
    answer = official.get(f"{HERE}?about=game&moment=dead&seen=offside")
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "One answer rules another out." in page
    assert "play was stopped." in page
    assert 'href="?about=game&amp;moment=dead">Back one step</a>' in page


@pytest.mark.parametrize(
    "asks",
    [
        "about=weather",
        "seen=foul",
        "about=persons&seen=foul",
        "about=game&seen=nothing",
        "about=game&seen=foul&seen=offside",
        "hidden=1",
        "said=%ff",
        f"said={'x' * 301}",
        "part=1",
    ],
)
def test_an_address_that_no_page_writes_is_refused(official: Client, asks: str) -> None:
    assert official.get(f"{HERE}?{asks}").status_code == 400


def test_what_was_typed_is_shown_as_text(official: Client) -> None:
    said = "<script>window.ran=1</script>\" onerror='x'"
    page = text_of(official, f"{HERE}?{urlencode({'said': said})}")
    assert "<script" not in page
    assert said in unescape(page)


def test_what_is_different_shows_every_situation_with_both_rulings_and_a_picture(
    official: Client,
) -> None:
    laws = read_rulebook(BOOK.head.base).rulebook
    found = different(bind(GAME, BOOK), bind(GAME, laws))
    pages = [text_of(official, f"{DIFFERENT}?part={part}") for part in (1, 2)]
    shown = [unescape(one) for page in pages for one in page.split('class="block ruled"')[1:]]
    assert len(shown) == len(found) == 7
    for one in found:
        here = " ".join(
            as_put_in(line, BOOK)
            for line in decision(one.here.ruling.answers, one.here.situation.facts)
        )
        there = " ".join(decision(one.laws.ruling.answers, one.laws.situation.facts))
        holds = [
            part for part in shown if f'"verdict">{here}' in part and f"<p>{there}" in part
        ]
        assert len(holds) >= 1
        assert all(part.count('class="drawn"') == 1 for part in holds)
    assert max(len(PICTURE.sub("", page).encode()) for page in pages) < MOST
    assert official.get(f"{DIFFERENT}?part=3").status_code == 404
    assert official.get(f"{DIFFERENT}?part=0").status_code == 404


def test_a_rulebook_that_is_the_laws_has_nothing_different() -> None:
    plain = b'schema = 1\nbase = "laws-2026-27"\nname = "Plain"\n'
    client = member(a_study(plain), "official")
    page = text_of(client, DIFFERENT)
    assert "This rulebook rules every situation as the Laws do." in page


def test_a_season_without_a_rulebook_says_so_with_the_cure() -> None:
    client = member(a_season(), "official")
    answer = client.get(HERE)
    assert answer.status_code == 409
    assert "This season has no rulebook yet." in answer.content.decode()


def test_the_study_opens_to_officials_and_is_missing_to_all_others(official: Client) -> None:
    del official
    season = a_study(preset("eight"), "Winter")
    people = {role: member(season, role, person="Cy Imbray") for role in ROLES}
    for page in ("/study/harrow-fen/winter/happened/", "/study/harrow-fen/winter/different/"):
        found = {role: client.get(page).status_code for role, client in people.items()}
        assert found == {
            "coordinator": 200,
            "supervisor": 200,
            "official": 200,
            "scorekeeper": 404,
            "captain": 404,
            "player": 404,
        }
        assert Client().get(page).headers["Location"].startswith("/accounts/login/")
    assert people["official"].get(HERE).status_code == 404
    theirs = people["official"].get(HERE).content.decode()
    missing = people["official"].get("/study/harrow-fen/nowhere/happened/").content.decode()
    assert TOKEN.sub("", theirs) == TOKEN.sub("", missing)


def test_the_door_leads_to_the_one_season_and_lists_several(official: Client) -> None:
    answer = official.get("/study/")
    assert (answer.status_code, answer.headers["Location"]) == (302, HERE)
    stranger = member(a_season("Spring"), "player")
    assert "You officiate in no season yet." in text_of(stranger, "/study/")


def test_nothing_is_changed_by_a_form_that_is_posted(official: Client) -> None:
    assert official.post(HERE).status_code == 405


def test_rules_are_compiled_once_for_each_rulebook(official: Client) -> None:
    text_of(official, f"{HERE}?about=game")
    before = kept_asking.cache_info()
    text_of(official, f"{HERE}?about=game&seen=foul")
    after = kept_asking.cache_info()
    assert (after.misses, after.hits) == (before.misses, before.hits + 1)


def test_an_edition_that_is_changed_rules_at_once_by_its_own_rules() -> None:
    season = a_study(preset(HOUSE))
    client = member(season, "official")
    before = text_of(client, DIFFERENT)

    written_by(season).write({"rulebook.toml": preset("five_indoor")})
    after = text_of(client, DIFFERENT)
    assert ("Part 1 of 2" in before, "Part 1 of 3" in after) == (True, True)
