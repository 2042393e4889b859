"""Lists the addresses of sites, and of what their emergency pages say."""

from django.urls import path

from wholeball.desk.views import sites

urlpatterns = [
    path("season/sites/", sites.sites, name="sites"),
    path("season/sites/add/", sites.add, name="add_site"),
    path("season/sites/take-out/", sites.drop, name="drop_site"),
    path("season/sites/change/<name:site>/", sites.change, name="site"),
]
