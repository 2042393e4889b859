"""Lets what is kept beside a season's files follow a site that is called otherwise."""

from wholeball.store.models import Occasion, Search, Season


def follow_site(season: Season, old: str, new: str) -> None:
    """Let words that people were told, and searches that wait, name a site by its new name."""
    if old == new:
        return
    for occasion in Occasion.objects.filter(season=season, what__site=old):
        occasion.what = {**occasion.what, "site": new}
        occasion.save(update_fields=["what"])
    for search in Search.objects.filter(
        season=season, state="waiting", asked__happened__site=old
    ):
        search.asked = {**search.asked, "happened": {**search.asked["happened"], "site": new}}
        search.save(update_fields=["asked"])
