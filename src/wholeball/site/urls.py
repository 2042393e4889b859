"""Lists the addresses of the whole site, room by room."""

from django.urls import include, path

from wholeball.site.views import account

urlpatterns = [
    path("account/", account.account, name="account"),
    path("accounts/", include("allauth.urls")),
    path("desk/", include("wholeball.desk.urls")),
    path("study/", include("wholeball.study.urls")),
    path("", include("wholeball.noticeboard.urls")),
]
