"""Names this room to Django."""

from django.apps import AppConfig


class NoticeboardConfig(AppConfig):
    """The room of that name."""

    name = "wholeball.noticeboard"
    label = "noticeboard"
