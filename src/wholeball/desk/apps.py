"""Names this room to Django."""

from django.apps import AppConfig


class DeskConfig(AppConfig):
    """The room of that name."""

    name = "wholeball.desk"
    label = "desk"
