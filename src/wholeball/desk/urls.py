"""Lists the addresses of this room, one list a group of pages."""

from django.urls import URLPattern, URLResolver, include, path

from wholeball.desk import names
from wholeball.desk.views.today import home

names.register()

from wholeball.desk.addresses import (  # noqa: E402 - use the names
    calendar,
    divisions,
    fees,
    nights,
    officials,
    play_offs,
    rulebook,
    season,
    sign_ups,
    sites,
    standings,
    tasks,
    teams,
    today,
)

app_name = "desk"
_OF_A_SEASON: list[URLPattern | URLResolver] = [
    *today.urlpatterns,
    *season.urlpatterns,
    *divisions.urlpatterns,
    *sign_ups.urlpatterns,
    *play_offs.urlpatterns,
    *sites.urlpatterns,
    *teams.urlpatterns,
    *fees.urlpatterns,
    *nights.urlpatterns,
    *officials.urlpatterns,
    *calendar.urlpatterns,
    *tasks.urlpatterns,
    *rulebook.urlpatterns,
    *standings.urlpatterns,
]
urlpatterns: list[URLPattern | URLResolver] = [
    path("", home, name="home"),
    path("<slug:organisation>/<slug:season>/", include(_OF_A_SEASON)),
]
