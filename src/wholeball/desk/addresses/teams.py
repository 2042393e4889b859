"""Lists the addresses of what a team is called, and of its players one by one."""

from django.urls import path

from wholeball.desk.views import players, team_name

urlpatterns = [
    path("teams/<name:team>/name/", team_name.correct, name="team_name"),
    path("teams/<name:team>/take-out/", team_name.drop, name="drop_team"),
    path("teams/<name:team>/player/", players.add, name="add_player"),
    path("teams/<name:team>/players/<int:place>/", players.correct, name="player"),
    path("teams/<name:team>/players/<int:place>/take-out/", players.drop, name="drop_player"),
]
