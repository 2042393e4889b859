"""Lists the addresses of what was asked for at sign-up."""

from django.urls import path

from wholeball.desk.views import sign_ups

urlpatterns = [
    path("season/sign-ups/", sign_ups.sign_ups, name="sign_ups"),
    path("season/sign-ups/take-out/", sign_ups.drop_team, name="drop_sign_up"),
    path("season/sign-ups/take-player-out/", sign_ups.drop_player, name="drop_alone"),
    path("season/sign-ups/team/<name:block>/<name:team>/", sign_ups.team, name="sign_up"),
    path("season/sign-ups/player/<name:block>/<name:person>/", sign_ups.alone, name="alone"),
]
