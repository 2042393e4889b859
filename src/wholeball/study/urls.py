"""Lists the addresses of this room."""

from django.urls import URLPattern, URLResolver, path

from wholeball.study.views.different import different
from wholeball.study.views.happened import happened
from wholeball.study.views.home import home

app_name = "study"
_SEASON = "<slug:organisation>/<slug:season>/"
urlpatterns: list[URLPattern | URLResolver] = [
    path("", home, name="home"),
    path(f"{_SEASON}happened/", happened, name="happened"),
    path(f"{_SEASON}different/", different, name="different"),
]
