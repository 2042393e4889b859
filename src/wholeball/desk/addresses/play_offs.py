"""Lists the addresses of the play-offs of a plan."""

from django.urls import path

from wholeball.desk.views import play_offs

urlpatterns = [
    path("season/play-offs/", play_offs.play_offs, name="play_offs"),
    path("season/play-offs/bracket/", play_offs.take, name="take_bracket"),
    path("season/play-offs/add/", play_offs.add, name="add_play_off"),
    path("season/play-offs/take-out/", play_offs.drop, name="drop_play_off"),
    path("season/play-offs/change/<name:game>/", play_offs.change, name="play_off"),
]
