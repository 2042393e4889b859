"""Lists the addresses of the whole site, room by room."""

from django.urls import include, path

from wholeball.site.views import account, invitation, start

urlpatterns = [
    path("account/", account.account, name="account"),
    path("invitation/<str:token>/", invitation.invitation, name="invitation"),
    path("start/", start.start, name="start"),
    path("accounts/", include("allauth.urls")),
    path("desk/", include("wholeball.desk.urls")),
    path("study/", include("wholeball.study.urls")),
    path("", include("wholeball.noticeboard.urls")),
]
