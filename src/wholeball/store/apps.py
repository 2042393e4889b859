"""Names this room to Django."""

from django.apps import AppConfig


class StoreConfig(AppConfig):
    """The room of that name."""

    name = "wholeball.store"
    label = "store"
