"""Lists the addresses of the day."""

from django.urls import path

from wholeball.desk.views import doubts, today

urlpatterns = [
    path("", today.door, name="door"),
    path("today/", today.today, name="today"),
    path("doubts/", doubts.to_look_at, name="doubts"),
]
