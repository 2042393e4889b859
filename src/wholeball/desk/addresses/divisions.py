"""Lists the addresses of divisions, and of the blocks in which they play."""

from django.urls import path

from wholeball.desk.views import blocks, divisions

urlpatterns = [
    path("season/divisions/", divisions.divisions, name="divisions"),
    path("season/divisions/add/", divisions.add, name="add_division"),
    path("season/divisions/take-out/", divisions.drop, name="drop_division"),
    path("season/divisions/change/<name:division>/", divisions.change, name="division"),
    path("season/blocks/add/", blocks.add, name="add_block"),
    path("season/blocks/take-out/", blocks.drop, name="drop_block"),
    path("season/blocks/change/<name:block>/", blocks.change, name="block_of_division"),
]
