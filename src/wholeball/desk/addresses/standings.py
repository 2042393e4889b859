"""Lists the addresses of tables: standings, results, brackets, ratings, reports."""

from django.urls import path

from wholeball.desk.views import lots, ratings, reports, results

urlpatterns = [
    path("standings/", reports.standings, name="standings"),
    path("results/", results.results, name="results"),
    path("bracket/", reports.bracket, name="bracket"),
    path("bracket/draw/", reports.draw, name="draw"),
    path("lots/", lots.lots, name="lots"),
    path("lots/<slug:draw>/hold/", lots.hold, name="hold_draw"),
    path("ratings/", ratings.ratings, name="ratings"),
    path("report/", reports.report, name="report"),
    path("tables/<slug:name>.<slug:kind>", reports.table, name="table"),
]
