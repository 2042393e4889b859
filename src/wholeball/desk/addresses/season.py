"""Lists the addresses of who plays: divisions, teams, rosters, clearances, suspensions."""

from django.urls import path

from wholeball.desk.views import discipline, eligibility, history, season, teams

urlpatterns = [
    path("season/", season.season, name="season"),
    path("teams/<name:team>/", teams.team, name="team"),
    path("teams/<name:team>/list/", teams.check_roster, name="check_roster"),
    path("teams/<name:team>/add/", teams.add_roster, name="add_roster"),
    path("clearances/", eligibility.clearances, name="clearances"),
    path("clearances/block/", eligibility.block, name="block"),
    path("clearances/lift/", eligibility.lift, name="lift"),
    path("changes/", history.history, name="history"),
    path("changes/undo/", history.undo, name="undo"),
    path("suspensions/", discipline.suspensions, name="suspensions"),
    path("suspensions/decide/", discipline.decide, name="decide"),
]
