"""Lets the site call a season as its own settings do."""

from wholeball.store.models import Season


def is_called(season: Season, name: str) -> bool:
    """Tell whether another season of the same organisation has a name, whatever its capitals. 1 query."""
    others = Season.objects.filter(organisation=season.organisation, name__iexact=name)
    return others.exclude(pk=season.pk).exists()


def call(season: Season, name: str) -> None:
    """Call a season so on the site; its address stays. 1 query."""
    Season.objects.filter(pk=season.pk).update(name=name)
    season.name = name


def follow_name(season: Season, old: str, new: str) -> None:
    """Let a season whose name on the site was that of its settings have the new one. 1 query."""
    if old != new and season.name == old:
        call(season, new)
