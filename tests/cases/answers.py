"""Reads what a page of the site answered: its words, and what was said of a deed."""

from html import unescape
from http import HTTPStatus
from typing import Any

from django.contrib.messages import get_messages


def words(answer: Any) -> str:
    """Return a page as its readers see its signs."""
    return unescape(answer.content.decode())


def said(answer: Any) -> str:
    """Return what was said last of a deed that was done."""
    assert answer.status_code == HTTPStatus.FOUND, words(answer)
    return str([*get_messages(answer.wsgi_request)][-1])
