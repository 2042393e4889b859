"""Puts a season with its people into a site that a test serves; run inside it by `in_site`."""

from pathlib import Path


def put_desk(folder: str, role: str = "coordinator") -> str:
    """Take a season folder in, once, and return the session of somebody who has a role in it."""
    from django.contrib.auth import (  # noqa: PLC0415 - after Django is set up
        BACKEND_SESSION_KEY,
        HASH_SESSION_KEY,
        SESSION_KEY,
    )
    from django.contrib.sessions.backends.db import SessionStore  # noqa: PLC0415

    from cases.desk_season import put_season  # noqa: PLC0415
    from cases.stored import a_season, an_account  # noqa: PLC0415
    from wholeball.store.models import Membership, Season  # noqa: PLC0415

    season = Season.objects.filter(slug="autumn").first()
    if season is None:
        season = a_season()
        put_season(season, Path(folder))
    account = an_account(f"{role} {Membership.objects.count()}")
    Membership.objects.create(
        organisation=season.organisation,
        account=account,
        role=role,
        season=season,
        person="Ada Quill" if role in ("official", "supervisor", "scorekeeper") else "",
        team="Ash" if role == "captain" else "",
    )
    session = SessionStore()
    session[SESSION_KEY] = str(account.pk)
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session[HASH_SESSION_KEY] = account.get_session_auth_hash()
    session.create()
    return str(session.session_key)
