"""Lists the addresses of this room."""

from django.urls import URLPattern, URLResolver, include, path

from wholeball.noticeboard.views import feeds, home, own, pages

app_name = "noticeboard"

_SEASON: list[URLPattern | URLResolver] = [
    path("", pages.front, name="front"),
    path("standings/", pages.tables, name="tables"),
    path("standings/<int:pool>/", pages.table, name="table"),
    path("standings/<int:pool>/round-<int:after>/", pages.table, name="table_after"),
    path("standings/<int:pool>/round-<int:after>/why/<int:place>/", pages.why, name="why"),
    path("calendar/", pages.calendar, name="calendar"),
    path("calendar/week-<int:week>/", pages.calendar, name="week"),
    path("calendar/<str:day>/", pages.night, name="night"),
    path("teams/<path:team>/", pages.team, name="team"),
    path("fields/<path:field>/", pages.field, name="field"),
    path("bracket/<int:number>/", pages.bracket, name="bracket"),
    path("draws/", pages.draws, name="draws"),
    path("draws/<slug:draw>/<str:file>", pages.draw_file, name="draw_file"),
    path("results/", pages.results, name="results"),
    path("results/round-<int:after>/", pages.results, name="results_after"),
    path("games/<path:game>/", pages.game, name="game"),
    path("rules/", pages.rules, name="rules"),
    path("rules/<int:number>/", pages.chapter, name="chapter"),
    path("rules/field/", pages.ground, name="ground"),
]

urlpatterns: list[URLPattern | URLResolver] = [
    path("", home.home, name="home"),
    path("feeds/<str:token>.ics", feeds.feed_file, name="feed"),
    path("me/", own.own, name="own"),
    path("me/<slug:organisation>/<slug:season>/", own.season, name="own_season"),
    path("me/<slug:organisation>/<slug:season>/team/<path:team>/", own.team, name="own_team"),
    path("me/<slug:organisation>/<slug:season>/name/", own.name, name="own_name"),
    path("me/<slug:organisation>/<slug:season>/feeds/", own.make_feed, name="make_feed"),
    path(
        "me/<slug:organisation>/<slug:season>/feeds/<int:feed>/close/",
        own.close_feed,
        name="close_feed",
    ),
    path("<slug:organisation>/<slug:season>/", include(_SEASON)),
]
