"""Asks what happened, one question at a time, and shows the ruling."""

from http import HTTPStatus

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.book import Rulebook
from wholeball.study.views import given
from wholeball.study.views.access import Study, in_study, page
from wholeball.study.views.given import Given
from wholeball.usecases.ask_ruling import ABOUT
from wholeball.usecases.propose_facts import MOST_TEXT
from wholeball.usecases.study_situation import hear, study_situation


@require_safe
@in_study
def happened(request: HttpRequest, study: Study) -> HttpResponse:
    """Show the first page, what a text sounds like, the next question, or the ruling."""
    answers = given.answered(request)
    book = study.book()
    if answers.about:
        return _told(request, study, book, answers)
    heard = hear(answers.said, book) if answers.said.strip() else ()
    return page(
        request,
        study,
        "begin",
        book=book,
        given=answers,
        heard=heard,
        about=ABOUT.items(),
        most=MOST_TEXT,
    )


def _told(request: HttpRequest, study: Study, book: Rulebook, answers: Given) -> HttpResponse:
    """Show a situation, or why its facts cannot be true together."""
    try:
        told = study_situation(
            book, answers.about, answers.facts, wants_depends=answers.is_unknown
        )
    except WholeballError as refused:
        if refused.code != "contradiction":
            raise
        values: dict[str, object] = {"refused": refused, "given": answers}
        status = HTTPStatus.UNPROCESSABLE_ENTITY
        return page(request, study, "apart", status=status, **values)
    template = "ruled" if told.ruled else "question"
    steps = [(one, answers.before(one.fact)) for one in told.said]
    return page(request, study, template, book=book, given=answers, told=told, steps=steps)
