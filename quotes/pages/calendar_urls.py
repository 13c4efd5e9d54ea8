from django.urls import path

from quotes.pages import calendar

urlpatterns = [path("<uuid:id>/<str:token>.ics", calendar.calendar)]
