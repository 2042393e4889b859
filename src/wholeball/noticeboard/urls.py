"""Lists the addresses of this room."""

from django.urls import URLPattern, URLResolver

app_name = "noticeboard"
urlpatterns: list[URLPattern | URLResolver] = []
