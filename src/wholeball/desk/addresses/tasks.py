"""Lists the addresses of searches for a timetable."""

from django.urls import path

from wholeball.desk.views import tasks

urlpatterns = [
    path("calendar/tasks/", tasks.tasks, name="tasks"),
    path("calendar/tasks/<int:number>/", tasks.task, name="task"),
    path("calendar/tasks/<int:number>/stop/", tasks.stop, name="stop_task"),
    path("calendar/tasks/<int:number>/take/", tasks.take, name="take_task"),
    path("calendar/tasks/<int:number>/forget/", tasks.forget, name="forget_task"),
]
