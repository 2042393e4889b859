"""People sign in and out with the keyboard alone; each page is looked at in every light."""

import re
import time

import pytest
from playwright.sync_api import Page, expect

from browser.looking import faults_of
from cases.in_site import in_site
from cases.served_site import Served
from cases.site_people import PASSWORD, put_person

OFFICIAL = "ines@league.invalid"
COORDINATOR = "tessa@league.invalid"


@pytest.fixture(scope="module")
def people(site: Served) -> Served:
    in_site(
        site.data, put_person, email=OFFICIAL, name="Ines Farrowby-Okembari of the Long Meadow"
    )
    in_site(site.data, put_person, email=COORDINATOR, role="coordinator")
    return site


def press_until(page: Page, name: str) -> None:
    """Press the tabulator until the control of that name has the focus, as a reader does."""
    for _ in range(40):
        page.keyboard.press("Tab")
        told = page.evaluate(
            "() => { const one = document.activeElement;"
            " return one.labels?.length ? one.labels[0].textContent : one.textContent; }"
        )
        if str(told).strip().startswith(name):
            return
    pytest.fail(f"the keyboard does not reach {name!r}")


def sign_in(page: Page, site: Served, email: str) -> None:
    """Sign in without a mouse."""
    page.goto(f"{site.address}/accounts/login/?next=/account/")
    press_until(page, "Email")
    page.keyboard.type(email)
    press_until(page, "Password")
    page.keyboard.type(PASSWORD)
    page.keyboard.press("Enter")
    page.wait_for_url(f"{site.address}/account/")


def test_somebody_signs_in_and_out_by_keyboard_and_stumbles_over_nothing(
    page: Page, people: Served
) -> None:
    page.goto(f"{people.address}/accounts/login/")
    assert faults_of(page) == []
    sign_in(page, people, OFFICIAL)
    assert faults_of(page) == []
    press_until(page, "Ines Farrowby")
    page.keyboard.press("Enter")
    assert faults_of(page) == []
    press_until(page, "Sign out")
    page.keyboard.press("Enter")
    page.wait_for_url(f"{people.address}/")
    page.goto(f"{people.address}/account/")
    assert page.url.startswith(f"{people.address}/accounts/login/")


def test_the_first_tab_leads_past_the_links_to_the_page(page: Page, people: Served) -> None:
    page.goto(f"{people.address}/accounts/login/")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("() => document.activeElement.id") == "main"


@pytest.mark.parametrize(
    "path",
    [
        "/accounts/signup/",
        "/accounts/password/reset/",
        "/accounts/logout/",
        "/accounts/password/change/",
        "/accounts/2fa/",
        "/accounts/2fa/totp/activate/",
        "/accounts/2fa/webauthn/add/",
        "/accounts/sessions/",
        "/accounts/email/",
        "/accounts/reauthenticate/",
        "/no/such/page/",
        "/start/",
        "/account/roles/?sought=nobody",
        "/invitation/",
        "/invitation/captains/",
    ],
)
def test_nobody_stumbles_over_a_page_of_the_account(
    turned: Page, people: Served, path: str
) -> None:
    turned.context.clear_cookies()
    if path not in ("/accounts/signup/", "/accounts/password/reset/"):
        sign_in(turned, people, COORDINATOR)
    turned.goto(f"{people.address}{path}")
    assert faults_of(turned) == []
    if turned.get_by_role("heading", name="Is it you?").count():
        turned.get_by_label("Password").fill(PASSWORD)
        turned.get_by_role("button", name="It is me").click()
        turned.wait_for_url(lambda address: "reauthenticate" not in address)
        assert faults_of(turned) == []


def test_a_passkey_is_added_and_signs_in_alone(page: Page, people: Served) -> None:
    email = f"passkey{len(page.context.pages)}-{time.monotonic_ns()}@league.invalid"
    in_site(people.data, put_person, email=email)
    tools = page.context.new_cdp_session(page)
    tools.send("WebAuthn.enable")
    tools.send(
        "WebAuthn.addVirtualAuthenticator",
        {
            "options": {
                "protocol": "ctap2",
                "transport": "internal",
                "hasResidentKey": True,
                "hasUserVerification": True,
                "isUserVerified": True,
                "automaticPresenceSimulation": True,
            }
        },
    )
    at = people.address.replace("127.0.0.1", "localhost")
    page.goto(f"{at}/accounts/login/?next=/accounts/2fa/webauthn/add/")
    page.get_by_label("Email").fill(email)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()
    page.get_by_role("heading", name="Is it you?").wait_for()
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="It is me").click()
    page.get_by_role("heading", name="Add a passkey").wait_for()
    assert faults_of(page) == []
    page.get_by_label("Name").fill("My phone")
    page.get_by_role("checkbox").check()
    page.get_by_role("button", name="Add the passkey").click()
    page.wait_for_url(lambda address: "webauthn/add" not in address)
    assert faults_of(page) == []
    page.context.clear_cookies()
    page.goto(f"{at}/accounts/login/?next=/account/")
    page.get_by_role("button", name="Sign in with a passkey").click()
    page.wait_for_url(f"{at}/account/")
    assert email in page.content()


def test_an_address_without_a_name_says_why_there_is_no_passkey(
    page: Page, people: Served
) -> None:
    page.goto(f"{people.address}/accounts/login/")
    page.get_by_role("button", name="Sign in with a passkey").click()
    expect(page.get_by_role("alert").filter(visible=True)).to_contain_text("open localhost")
    assert faults_of(page) == []


def test_a_form_that_is_refused_says_so_first_and_keeps_what_was_typed(
    page: Page, people: Served
) -> None:
    sign_in(page, people, COORDINATOR)
    page.goto(f"{people.address}/start/")
    page.get_by_label("Name of the season").first.fill("Autumn eights")
    page.get_by_role("button", name="Begin the season").click()
    page.get_by_role("alert").wait_for()
    assert page.get_by_label("Name of the season").first.input_value() == "Autumn eights"
    assert faults_of(page) == []


def test_a_role_is_ended_and_given_back_by_keyboard(page: Page, people: Served) -> None:
    name = "Bertrande Ivarsdottir-Quillon of the Far Meadow"
    in_site(
        people.data, put_person, email="bertrande@league.invalid", name=name, role="supervisor"
    )
    sign_in(page, people, COORDINATOR)
    page.goto(f"{people.address}/account/roles/")
    assert faults_of(page) == []
    press_until(page, "End it: Bertrande")
    page.keyboard.press("Enter")
    page.get_by_text("It opens nothing any more.").wait_for()
    assert faults_of(page) == []
    press_until(page, "Give it back: Bertrande")
    page.keyboard.press("Enter")
    page.get_by_text("Given back: Bertrande").wait_for()
    expect(page.get_by_role("button", name=re.compile("^End it.*Bertrande"))).to_be_visible()
