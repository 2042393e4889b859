"""Lists the addresses of this room."""

from django.urls import URLPattern, URLResolver

app_name = "desk"
urlpatterns: list[URLPattern | URLResolver] = []
