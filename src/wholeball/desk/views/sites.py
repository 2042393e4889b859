"""Shows the sites of a season with their emergency pages; adds, changes and takes out sites."""

from collections.abc import Collection
from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.site import SITE_FIELDS, TICKED, SiteForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.divisions import kept
from wholeball.desk.views.refusals import faults_of, put_on
from wholeball.files.sites import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.reports.night_words import CALL_FIRST, POLICY_FIRST, SITE_LABELS
from wholeball.rulebook.sentence import listed
from wholeball.usecases.set_sites import add_site, change_site_on_site, drop_site
from wholeball.usecases.show_sites import SiteShown, SitesShown, show_sites

_TEXTS = (*SITE_FIELDS.values(), given.VERSION)


@require_safe
@at_desk(COORDINATORS)
def sites(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show which sites there are, and what their emergency pages lack."""
    given.asked(request)
    return _sites_page(request, desk)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def add(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Add a site."""
    shown = show_sites(desk.read())
    if request.method != "POST":
        given.asked(request)
        return _site_page(request, desk, SiteForm(shown=shown), "", desk.season.version)
    told, version = _sent(request)
    form = SiteForm(told, shown=shown)
    if form.is_valid():
        site, fields = form.told(), form.ticked()
        try:
            add_site(desk.write(version), site, fields)
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields=SITE_FIELDS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            moved = _moved(shown, "", fields)
            says = f"{site.site} is added.{moved} To undo it: Season, Changes."
            messages.success(request, says)
            return redirect("desk:sites", *desk.where)
    return _site_page(request, desk, form, "", version)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def change(request: HttpRequest, desk: Desk, site: str) -> HttpResponse:
    """Change what is said of a site, and which fields are at it."""
    shown = show_sites(desk.read())
    if request.method != "POST":
        given.asked(request)
        form = SiteForm.of(_site(shown, site), shown)
        return _site_page(request, desk, form, site, desk.season.version)
    told, version = _sent(request)
    form = SiteForm(told, shown=shown, here=site)
    if form.is_valid():
        new, fields = form.told(), form.ticked()
        try:
            change_site_on_site(desk.write(version), site, new, fields)
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields=SITE_FIELDS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            moved = _moved(shown, site, fields)
            messages.success(request, kept(site, new.site, more=moved))
            return redirect("desk:sites", *desk.where)
    return _site_page(request, desk, form, site, version)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a site out that nothing names."""
    told = given.posted(request, ("site", given.VERSION))
    try:
        drop_site(desk.write(given.version(told)), told["site"])
    except WholeballError as refused:
        return _sites_page(request, desk, refused=refused)
    messages.success(request, f"{told['site']} is taken out. To undo it: Season, Changes.")
    return redirect("desk:sites", *desk.where)


def _sent(request: HttpRequest) -> tuple[dict[str, str | list[str]], int]:
    """Return what the form of a site holds, and the version that it was made from."""
    version = given.version(given.posted(request, _TEXTS, several=(TICKED,)))
    return given.posted_lists(request, _TEXTS, several=(TICKED,)), version


def _site(shown: SitesShown, site: str) -> SiteShown:
    """Return a site.

    Raises:
        Http404: there is none of that name.
    """
    found = next((one for one in shown.sites if one.told.site == site), None)
    if found is None:
        raise Http404
    return found


def _moved(shown: SitesShown, here: str, fields: Collection[str]) -> str:
    """Say which fields came from another site, and which belong to none from now on."""
    came = [
        f"{one} from {at}" for one, at in shown.fields if one in fields and at not in ("", here)
    ]
    gone = [one for one, at in shown.fields if here and at == here and one not in fields]
    parts = []
    if came:
        parts.append(f" Moved here: {listed(tuple(came))}.")
    if gone:
        parts.append(f" At no site now: {listed(tuple(gone))}.")
    return "".join(parts)


def _sites_page(
    request: HttpRequest, desk: Desk, *, refused: WholeballError | None = None
) -> HttpResponse:
    return page(
        request,
        desk,
        "sites",
        status=HTTPStatus.OK if refused is None else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=show_sites(desk.read()),
        refused=refused,
        faults=faults_of(refused),
        every=len(SITE_LABELS),
        policy_first=POLICY_FIRST,
    )


def _site_page(
    request: HttpRequest, desk: Desk, form: SiteForm, name: str, version: int
) -> HttpResponse:
    """Return the page on which a site is added, or changed where it has a name already."""
    return page(
        request,
        desk,
        "site",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK,
        name=name,
        form=form,
        version=f"{version}",
        call_first=CALL_FIRST,
        policy_first=POLICY_FIRST,
    )
