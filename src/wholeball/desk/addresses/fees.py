"""Lists the addresses of what forfeits cost, and of what was paid or waived."""

from django.urls import path

from wholeball.desk.views import fees

urlpatterns = [
    path("season/fees/", fees.fees, name="fees"),
    path("season/fees/take-out/", fees.drop, name="drop_fee"),
    path("season/fees/<name:team>/<name:game>/", fees.fee, name="fee"),
]
