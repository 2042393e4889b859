"""Lists the addresses of the whole site, room by room."""

from django.urls import include, path

urlpatterns = [
    path("accounts/", include("allauth.urls")),
    path("desk/", include("wholeball.desk.urls")),
    path("study/", include("wholeball.study.urls")),
    path("", include("wholeball.noticeboard.urls")),
]
