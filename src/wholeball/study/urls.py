"""Lists the addresses of this room."""

from django.urls import URLPattern, URLResolver

app_name = "study"
urlpatterns: list[URLPattern | URLResolver] = []
