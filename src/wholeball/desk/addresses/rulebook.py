"""Lists the addresses of the rulebook: its articles, a draft of it, its editions."""

from django.urls import path

from wholeball.desk.views import nights, rulebook

urlpatterns = [
    path("rulebook/", rulebook.rulebook, name="rulebook"),
    path("rulebook/booklet.pdf", nights.booklet, name="booklet"),
    path("rulebook/edition/", rulebook.edition, name="edition"),
    path("rulebook/back/", rulebook.rulebook_back, name="rulebook_back"),
    path("rulebook/articles/<name:path>/", rulebook.article, name="article"),
]
