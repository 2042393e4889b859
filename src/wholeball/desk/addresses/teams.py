"""Lists the addresses of what a team is called."""

from django.urls import path

from wholeball.desk.views import team_name

urlpatterns = [
    path("teams/<name:team>/name/", team_name.correct, name="team_name"),
    path("teams/<name:team>/take-out/", team_name.drop, name="drop_team"),
]
