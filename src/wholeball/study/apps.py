"""Names this room to Django."""

from django.apps import AppConfig


class StudyConfig(AppConfig):
    """The room of that name."""

    name = "wholeball.study"
    label = "study"
