"""Pages that refuse say so on a page of the site, and nobody stumbles over one."""

from playwright.sync_api import Page, Response

from browser.looking import faults_of
from cases.served_site import Served


def headings(page: Page, answer: Response | None) -> tuple[int, str]:
    """Return the status of an answer and what its page is headed with."""
    assert answer is not None
    return answer.status, page.get_by_role("heading", level=1).inner_text()


def test_what_is_missing_or_takes_a_form_only_is_told_on_a_page(
    page: Page, site: Served
) -> None:
    told = {}
    for path in ("nowhere/", "desk/harrow-fen/leas/changes/undo/"):
        told[path] = headings(page, page.goto(f"{site.address}/{path}"))
        assert faults_of(page) == []
    assert told == {
        "nowhere/": (404, "Nothing here for you"),
        "desk/harrow-fen/leas/changes/undo/": (405, "Nothing was sent"),
    }


def test_a_form_without_its_token_is_told_on_a_page(page: Page, site: Served) -> None:
    page.goto(f"{site.address}/accounts/login/")
    page.evaluate(
        "document.querySelectorAll('[name=csrfmiddlewaretoken]').forEach(e => e.remove())"
    )
    page.get_by_label("Email").fill("ines@league.invalid")
    page.get_by_label("Password", exact=True).fill("a word of mine")
    with page.expect_navigation() as led:
        page.get_by_role("button", name="Sign in", exact=True).click()
    assert headings(page, led.value) == (403, "Not sent")
    assert faults_of(page) == []


def test_what_is_too_large_is_told_on_a_page(page: Page, site: Served) -> None:
    home = f"{site.address}/"
    page.route(
        home,
        lambda sent: sent.continue_(
            headers={**sent.request.headers, "content-encoding": "gzip"}
        ),
    )
    answer = page.goto(home)
    assert headings(page, answer) == (413, "Too large")
    assert faults_of(page) == []
