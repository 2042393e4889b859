"""Lists the addresses of nights and games."""

from django.urls import path

from wholeball.desk.views import crews, games, nights, results

urlpatterns = [
    path("nights/", nights.nights, name="nights"),
    path("nights/suspensions.pdf", nights.suspensions_sheet, name="suspensions_sheet"),
    path("nights/<day:day>/", nights.night, name="night"),
    path("nights/<day:day>/crews/", crews.crews, name="crews"),
    path("nights/<day:day>/officials/", crews.officials, name="officials"),
    path("nights/<day:day>/packet.pdf", nights.packet, name="packet"),
    path("nights/<day:day>/scorecards.pdf", nights.scorecards, name="scorecards"),
    path("games/<name:game>/goes-on/", crews.goes_on, name="goes_on"),
    path("games/<name:game>/", games.game, name="game"),
    path("games/<name:game>/scorecard/", games.scorecard, name="scorecard"),
    path("games/<name:game>/step/", games.step, name="step"),
    path("games/<name:game>/questions/", games.questions, name="questions"),
    path("games/<name:game>/answer/", games.answer, name="answer"),
    path("games/<name:game>/report/", games.report, name="report_incident"),
    path("games/<name:game>/certify/", results.certify, name="certify"),
    path("games/<name:game>/reopen/", results.reopen, name="reopen"),
    path("games/<name:game>/award/", results.award, name="award"),
]
