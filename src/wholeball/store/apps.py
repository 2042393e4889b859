"""Names this room to Django, and guards what is only ever added."""

from django.apps import AppConfig
from django.db.models.signals import post_migrate

from wholeball.store import triggers


class StoreConfig(AppConfig):
    """The room of that name."""

    name = "wholeball.store"
    label = "store"

    def ready(self) -> None:
        """Have the triggers set up after every migration."""
        post_migrate.connect(triggers.install, sender=self)
