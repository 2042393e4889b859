"""Lists the addresses of who officiates in a season."""

from django.urls import path

from wholeball.desk.views import officials

urlpatterns = [
    path("season/officials/", officials.officials, name="officials_list"),
    path("season/officials/<name:official>/", officials.correct, name="official"),
    path("season/officials/<name:official>/take-out/", officials.drop, name="drop_official"),
]
