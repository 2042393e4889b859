"""Lists the addresses of the whole site, room by room."""

from django.urls import include, path

from wholeball.site.views import account, captains, icon, invitation, invitations, roles, start

urlpatterns = [
    path("favicon.ico", icon.icon, name="icon"),
    path("account/", account.account, name="account"),
    path("account/roles/", roles.roles, name="roles"),
    path("account/roles/<int:number>/end/", roles.end, name="end_role"),
    path("account/roles/<int:number>/back/", roles.back, name="give_role_back"),
    path("invitation/", invitations.invitations, name="invitations"),
    path("invitation/captains/", captains.captains, name="invite_captains"),
    path("invitation/<int:number>/close/", invitations.close_one, name="close_invitation"),
    path("invitation/<str:token>/", invitation.invitation, name="invitation"),
    path("start/", start.start, name="start"),
    path("accounts/", include("allauth.urls")),
    path("desk/", include("wholeball.desk.urls")),
    path("study/", include("wholeball.study.urls")),
    path("", include("wholeball.noticeboard.urls")),
]
