"""Lists the addresses of the timetable: the board, publishing, calling off, messages."""

from django.urls import path

from wholeball.desk.views import calendar, call_off, messages, publish

urlpatterns = [
    path("calendar/", calendar.calendar, name="calendar"),
    path("calendar/move/", calendar.move, name="move"),
    path("calendar/step-back/", calendar.undo, name="step_back"),
    path("calendar/throw-away/", calendar.discard, name="throw_away"),
    path("calendar/newest/", calendar.newest, name="newest"),
    path("calendar/publish/", publish.publish, name="publish"),
    path("call-off/", call_off.call_off, name="call_off"),
    path("call-off/<int:number>/", call_off.take_back, name="take_back"),
    path("messages/", messages.messages, name="messages"),
    path("messages/<int:number>/", messages.message, name="message"),
    path("messages/<int:number>/again/", messages.send_again, name="send_again"),
]
