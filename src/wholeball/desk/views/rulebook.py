"""Shows the rulebook, edits an article in a draft, and publishes an edition."""

from typing import Final

from django.contrib import messages
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.files.rulebook_file import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.store.drafts import Whose, draft_of, keep_step, step_back, throw_away
from wholeball.store.models import Draft
from wholeball.store.queries.history import editions
from wholeball.store.writing import alone
from wholeball.usecases.edit_rulebook import Edited, articles_of, edited
from wholeball.usecases.publish_edition import edition_told, publish_edition, rulebook_text

STEP: Final = "step"
_MOST_CELLS: Final = 400
_LONGEST_NUMBER: Final = 6
"""Signs of a reference that the centre circle has room for."""


@require_safe
@at_desk(COORDINATORS)
def rulebook(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the articles, each with how it stands to the Laws."""
    only = given.asked(request, "only")["only"]
    draft, text = _drafted(desk)
    every = articles_of(text)
    differ = [one for one in every if one.standing.standing != "law"]
    return page(
        request,
        desk,
        "rulebook",
        articles=differ if only == "different" else every,
        differ=len(differ),
        only=only,
        draft=draft,
        editions=editions(desk.season),
    )


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def article(request: HttpRequest, desk: Desk, path: str) -> HttpResponse:
    """Edit an article, with what is wrong and how it reads beside it; then keep the draft."""
    draft, text = _drafted(desk)
    step = 0 if draft is None else draft.step
    if request.method != "POST":
        given.asked(request)
        return _article(request, desk, edited(text, path), step)
    told = _typed(request)
    found = edited(text, path, told)
    if found.text is None:
        return _article(request, desk, found, step, status=422)
    if told.get("does") == "keep":
        return _keep(request, desk, found, text, told)
    return _article(request, desk, found, step)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def edition(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show what a draft of the rulebook changes; a second step publishes it as an edition."""
    draft, text = _drafted(desk)
    if draft is None:
        given.asked(request)
        return page(request, desk, "edition", draft=None)
    told = edition_told(desk.read(), text)
    if request.method == "POST":
        step = given.whole(given.posted(request, (STEP,))[STEP], what=STEP)
        return _publish(request, desk, draft, step)
    given.asked(request)
    is_newest = rulebook_text(desk.read()) == draft.base.encode()
    return page(request, desk, "edition", draft=draft, told=told, is_newest=is_newest)


@require_POST
@at_desk(COORDINATORS)
def rulebook_back(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Undo the last step of a draft, or throw it away."""
    told = given.posted(request, (STEP, "all"))
    step = given.whole(told[STEP], what=STEP)
    try:
        (throw_away if told["all"] == "yes" else step_back)(_whose(desk), step)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, "It is undone. The edition that counts was never touched.")
    return redirect("desk:rulebook", *desk.where)


def _keep(
    request: HttpRequest, desk: Desk, found: Edited, text: bytes, told: dict[str, str]
) -> HttpResponse:
    assert found.text is not None  # noqa: S101 - the caller has looked
    if found.text == text:
        messages.warning(request, "Nothing was changed, so nothing is kept.")
        return redirect("desk:article", *desk.where, found.article.path)
    draft = draft_of(_whose(desk))
    base = rulebook_text(desk.read()) if draft is None else draft.base.encode()
    step = given.whole(told.get(STEP, ""), what=STEP)
    try:
        keep_step(_whose(desk), found.text.decode(), base=base.decode(), step=step)
    except WholeballError as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, f"{found.article.title}: kept in your draft.")
    return redirect("desk:article", *desk.where, found.article.path)


def _publish(request: HttpRequest, desk: Desk, draft: Draft, step: int) -> HttpResponse:
    try:
        with alone():
            publish_edition(desk.write(), base=draft.base.encode(), text=draft.text.encode())
            throw_away(_whose(desk), step)
    except WholeballError as refused:
        messages.error(request, str(refused))
        return redirect("desk:edition", *desk.where)
    messages.success(request, "The edition is published. The one before it is kept.")
    return redirect("desk:rulebook", *desk.where)


def _article(
    request: HttpRequest, desk: Desk, found: Edited, step: int, status: int = 200
) -> HttpResponse:
    beside = [one for key in found.keys for one in key.faults]
    ref = found.article.ref
    elsewhere = [one for one in found.faults if f"{one.says} {one.cure}" not in beside]
    return page(
        request,
        desk,
        "article",
        status=status,
        found=found,
        step=step,
        elsewhere=elsewhere,
        number=ref if len(ref) <= _LONGEST_NUMBER else "",
    )


def _typed(request: HttpRequest) -> dict[str, str]:
    """Return what was typed into the cells of an article, whose names the article makes."""
    names = [one for one in request.POST if one != given.TOKEN]
    if len(names) > _MOST_CELLS:
        raise BadRequest(f"At most {_MOST_CELLS} values are taken.")
    return given.posted(request, names)


def _whose(desk: Desk) -> Whose:
    return Whose(season=desk.season, account=desk.account, file=FILE)


def _drafted(desk: Desk) -> tuple[Draft | None, bytes]:
    draft = draft_of(_whose(desk))
    return draft, rulebook_text(desk.read()) if draft is None else draft.text.encode()
