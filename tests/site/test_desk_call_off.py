"""Calling off: those concerned alone are told, the public line changes, undo sends a correction."""

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta

import pytest
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from django.test import Client
from pytest_django.fixtures import Settings

from cases.board_season import tonight
from cases.desk_officials import version
from cases.desk_season import at, member
from cases.stored import written_by
from wholeball.desk.tasks import send_mail
from wholeball.store.models import Membership, Message, Occasion, Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.snapshot import snapshot_of

pytestmark = pytest.mark.django_db
NIGHT = tonight().date()
OFF = {
    "night": f"{NIGHT}",
    "place": "site:North Lea",
    "state": "off",
    "next_word": "",
    "says": "Standing water on the pitch.",
}


@pytest.fixture(autouse=True)
def _mail_goes_out(settings: Settings) -> None:
    settings.SENDS_MAIL = True


class Broken(EmailBackend):
    """A post office that refuses one address."""

    def send_messages(self, messages: object) -> int:
        for one in messages:  # type: ignore[attr-defined]
            if "ash" in one.to[0]:
                raise OSError("the mail server does not answer")
        return super().send_messages(messages)  # type: ignore[arg-type]


@pytest.fixture
def season(season: Season) -> Season:
    for team in ("Ash", "Birch", "Cedar", "Elm"):
        member(season, "captain", team=team, person=team)
    for official in ("Ada Quill", "Bo Tarn"):
        member(season, "official", person=official)
    member(season, "player", team="Ash", person="p-1")
    return season


def notices(season: Season) -> list[str]:
    now = Season.objects.get(pk=season.pk)
    return snapshot_of(now).texts.get("notices.csv", b"").decode().splitlines()


def sure(**more: str) -> dict[str, str]:
    """Return the form that says a word, as the page has it by which it was looked at."""
    return {**OFF, "version": version(), "sure": "yes", **more}


def call_off(client: Client, **more: str) -> Occasion:
    answer = client.post(at("call_off"), sure(**more))
    assert answer.status_code == 302
    occasion = Occasion.objects.order_by("-pk")[0]
    send_mail.func(occasion.pk)
    return occasion


def told() -> list[str]:
    return sorted(one.to[0].partition("@")[0] for one in mail.outbox)


def test_before_it_is_said_those_concerned_and_the_public_line_are_shown(
    kim: Client, season: Season
) -> None:
    word = kim.post(at("call_off"), OFF).context["word"]
    assert [one.who for one in word.letters] == [
        "Captain of Ash",
        "Captain of Birch",
        "An official: Ada Quill",
    ]
    assert word.public == "Tonight: 2 games on; 1 game off."
    assert (notices(season), mail.outbox, Occasion.objects.count()) == ([], [], 0)


def test_only_the_captains_and_officials_of_the_closed_site_are_told(
    kim: Client, season: Season
) -> None:
    call_off(kim)
    assert notices(season)[1:] == [f"{NIGHT},North Lea,,off,,Standing water on the pitch."]
    assert told() == ["captain.ash", "captain.birch", "official.ada.quill"]
    assert "Game 1, Ash v Birch, 19:00 on North 1, is off." in mail.outbox[0].body
    assert {one.state for one in Message.objects.all()} == {"sent"}


def test_a_second_click_says_nothing_again_tells_nobody_twice_and_keeps_what_was_typed(
    kim: Client, season: Season
) -> None:
    page = kim.post(at("call_off"), OFF).content.decode()
    sent = sure()
    assert f'name="version" value="{sent["version"]}"' in page
    kim.post(at("call_off"), sent)
    said = notices(season)
    again = kim.post(at("call_off"), sent)
    page = again.content.decode()
    assert (again.status_code, Occasion.objects.count()) == (422, 1)
    assert (notices(season), Message.objects.count()) == (said, 3)
    assert (
        "It was changed while you worked on it. the list of notices, by coordinator Kim" in page
    )
    assert "Standing water on the pitch." in page
    assert kim.post(at("call_off"), sure()).status_code == 302


def test_a_word_without_the_version_that_was_looked_at_is_not_understood(kim: Client) -> None:
    answer = kim.post(at("call_off"), {**OFF, "sure": "yes"})
    assert (answer.status_code, Occasion.objects.count()) == (400, 0)


def test_what_waits_is_sent_again_only_once_it_was_left_behind(kim: Client) -> None:
    kim.post(at("call_off"), sure())
    occasion = Occasion.objects.get()
    assert "Send again" not in kim.get(at("message", occasion.pk)).content.decode()
    Occasion.objects.update(at=occasion.at - timedelta(minutes=2))
    assert "Send again" in kim.get(at("message", occasion.pk)).content.decode()


def test_a_subject_ends_early_where_names_are_as_long_as_they_may_be(
    kim: Client, season: Season
) -> None:
    """PostgreSQL holds every text to its length, and SQLite to none."""
    site, texts = "S" * 80, snapshot_of(Season.objects.get(pk=season.pk)).texts
    names = {"Three Leas": "N" * 120, "North Lea": site}
    files = {name: texts[name].decode() for name in ("season.toml", "sites.csv", "fields.csv")}
    for old, new in names.items():
        files = {name: text.replace(old, new) for name, text in files.items()}
    written_by(season).write({name: text.encode() for name, text in files.items()})
    call_off(kim, place=f"site:{site}")
    subjects = {one.subject for one in mail.outbox}
    assert [(len(one), one[:121], one[-1]) for one in subjects] == [(200, f"{'N' * 120}:", "…")]
    assert all(site in one.body for one in mail.outbox)


def test_a_button_counts_those_alone_who_have_an_address(kim: Client) -> None:
    Membership.objects.filter(team="Ash", role="captain").delete()
    page = kim.post(at("call_off"), OFF)
    assert (page.context["mails"], page.context["by_hand"]) == (2, 1)
    assert ">Say it and send 2 messages</button>" in page.content.decode()
    assert "2 go out by mail; 1 is yours to tell." in page.content.decode()


def test_undo_sends_a_correction_to_the_same_people_and_the_line_is_as_before(
    kim: Client, season: Season
) -> None:
    occasion = call_off(kim)
    before = told()
    mail.outbox.clear()
    page = kim.get(at("take_back", occasion.pk))
    assert page.context["word"].public == "Tonight is on: 3 games, the first at 19:00."
    kim.post(at("take_back", occasion.pk))
    correction = Occasion.objects.get(kind="correction")
    send_mail.func(correction.pk)
    assert (correction.corrects, told()) == (occasion, before)
    assert "Correction" in mail.outbox[0].body
    assert "is on again." in mail.outbox[0].body
    assert notices(season)[2:] == [f"{NIGHT},North Lea,,on,,"]


def test_a_word_is_taken_back_once(kim: Client, season: Season) -> None:
    occasion = call_off(kim)
    kim.post(at("take_back", occasion.pk))
    before = notices(season)
    kim.post(at("take_back", occasion.pk))
    assert (notices(season), Occasion.objects.count()) == (before, 2)


def test_of_two_who_take_a_word_back_at_once_the_second_is_told(
    kim: Client, season: Season, monkeypatch: pytest.MonkeyPatch
) -> None:
    occasion, other = call_off(kim), member(season, "coordinator", person="Tess")
    waits = iter(("once",))
    holds = DatabaseRecord.held

    @contextmanager
    def held(record: DatabaseRecord) -> Iterator[None]:
        """Let the other one be the first who holds the season."""
        if next(waits, ""):
            assert other.post(at("take_back", occasion.pk)).status_code == 302
        with holds(record):
            yield

    monkeypatch.setattr(DatabaseRecord, "held", held)
    answer = kim.post(at("take_back", occasion.pk), follow=True)
    assert "That was taken back already." in answer.content.decode()
    assert Occasion.objects.filter(kind="correction").count() == 1
    assert len(notices(season)) == 3


def test_undo_brings_back_the_word_before_and_not_more(kim: Client, season: Season) -> None:
    call_off(kim, place="all", state="later", next_word="16:30", says="")
    north = call_off(kim)
    kim.post(at("take_back", north.pk))
    assert notices(season)[3:] == [f"{NIGHT},North Lea,,later,16:30,"]


def test_a_later_word_on_the_place_is_not_undone_by_an_earlier_one(
    kim: Client, season: Season
) -> None:
    first = call_off(kim)
    call_off(kim, place="field:North 1", state="on", says="")
    before = notices(season)
    answer = kim.post(at("take_back", first.pk))
    assert answer.status_code == 409
    assert notices(season) == before


def test_a_message_that_failed_says_why_and_is_sent_again(
    kim: Client, settings: Settings
) -> None:
    settings.EMAIL_BACKEND = f"{__name__}.Broken"
    occasion = call_off(kim)
    failed = Message.objects.get(state="failed")
    assert (failed.who, failed.tries) == ("Captain of Ash", 1)
    assert failed.fault == "OSError: the mail server does not answer"
    settings.EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
    kim.post(at("send_again", occasion.pk))
    send_mail.func(occasion.pk)
    again = Message.objects.get(pk=failed.pk)
    assert (again.state, again.tries, again.fault) == ("sent", 2, "")
    assert len(mail.outbox) == 3


class Slow(EmailBackend):
    """A post office that takes its time: another worker begins meanwhile."""

    def send_messages(self, messages: object) -> int:
        if not mail.outbox:
            send_mail.func(Occasion.objects.get().pk)
        return super().send_messages(messages)  # type: ignore[arg-type]


def test_two_workers_who_are_asked_for_one_occasion_send_each_message_once(
    kim: Client, settings: Settings
) -> None:
    settings.EMAIL_BACKEND = f"{__name__}.Slow"
    call_off(kim)
    assert told() == ["captain.ash", "captain.birch", "official.ada.quill"]
    assert set(Message.objects.values_list("state", "tries")) == {("sent", 1)}


@pytest.mark.parametrize(("seconds", "sent"), [(59, 0), (61, 3)])
def test_a_message_that_a_worker_took_and_left_is_free_after_a_minute(
    kim: Client, seconds: int, sent: int
) -> None:
    kim.post(at("call_off"), sure())
    taken = datetime.now(UTC) - timedelta(seconds=seconds)
    Message.objects.update(tried_at=taken, tries=1)
    send_mail.func(Occasion.objects.get().pk)
    assert len(mail.outbox) == sent


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("night", f"{NIGHT - timedelta(days=1)}", "That night is gone by."),
        ("night", "2026-02-30", "This is no day of the calendar."),
        ("place", "site:Nowhere", "Select a valid choice."),
        ("state", "later", "When is the next word?"),
        ("next_word", "16:30", "It is off: take the time out."),
        ("says", "The field is safe again.", "Nobody can promise that here."),
        ("says", "x" * 201, "at most 200 characters"),
    ],
)
def test_a_word_that_cannot_be_said_is_refused_beside_its_field(
    kim: Client, season: Season, field: str, value: str, says: str
) -> None:
    answer = kim.post(at("call_off"), sure(**{field: value}))
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert (notices(season), Occasion.objects.count()) == ([], 0)


def test_the_page_defers_to_policy_and_promises_nothing(kim: Client) -> None:
    page = " ".join(kim.get(at("call_off")).content.decode().split())
    assert "your own policy and the people who are licensed to decide come first" in page
    assert " safe" not in page


def test_a_warning_that_it_is_not_safe_may_be_passed_on(kim: Client, season: Season) -> None:
    call_off(kim, says="The gate is not safe.")
    assert notices(season)[1].endswith("The gate is not safe.")


def test_words_that_no_file_takes_are_told_beside_their_field_and_kept(
    kim: Client, season: Season
) -> None:
    typed = "Read from right \u202eto left."
    answer = kim.post(at("call_off"), {**OFF, "says": typed})
    assert (answer.status_code, notices(season)) == (422, [])
    assert list(answer.context["form"].errors) == ["says"]
    assert typed in answer.content.decode()
