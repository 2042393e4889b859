"""Serves the demonstration's seasons as a site of their own, with an account for each role."""

import os
import shutil
from collections.abc import Mapping
from pathlib import Path
from typing import Final

import django

from wholeball.site.data_folder import make_data_folder
from wholeball.site.environment import environment

HOST: Final = "127.0.0.1"
PORT: Final = 8000


def serve_site(folders: Mapping[str, Path], data: Path, *, port: int = PORT) -> None:
    """Load season folders, each by its name, into a new site, say how to sign in, and serve until Ctrl-C."""
    shutil.rmtree(data, ignore_errors=True)
    os.environ["WHOLEBALL_DATA"] = str(data)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wholeball.site.settings")
    make_data_folder(environment())
    django.setup()
    from demo.site_rows import ACCOUNTS, fill  # noqa: PLC0415 - needs Django set up
    from wholeball.site.serving import make_ready, serve  # noqa: PLC0415 - as before

    make_ready(environment(), print)
    password = fill(folders)
    names = " and ".join(folders)
    print(f"{names} as a site. Sign in with the password {password} as one of:")
    for account in ACCOUNTS:
        print(f"  {account.email}")
    serve(environment(), host=HOST, port=port)
