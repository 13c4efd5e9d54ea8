"""The project's addresses. Each app adds its own below the shop; the app's screens come last."""

from django.urls import include, path, re_path

from shop.views import app
from shop.views.entry import Entry, EntryReading, Forgotten
from shop.views.opening import Opening
from shop.views.pins import OnePin, Pins, PinSession
from shop.views.second_factor import Confirmation, SecondFactor, SwitchedOff
from shop.views.session import OneSession, Password, Session, Sessions

IN_A_SHOP = [
    path("", include("shop.urls_api")),
    path("", include("kitting.urls")),
    path("", include("quotes.urls")),
]

urlpatterns = [
    path("api/v1/session", Session.as_view()),
    path("api/v1/pins", Pins.as_view()),
    path("api/v1/pins/<uuid:id>", OnePin.as_view()),
    path("api/v1/session/pin", PinSession.as_view()),
    path("api/v1/session/password", Password.as_view()),
    path("api/v1/entry", Entry.as_view()),
    path("api/v1/entry/reading", EntryReading.as_view()),
    path("api/v1/second-factor", SecondFactor.as_view()),
    path("api/v1/second-factor/confirmation", Confirmation.as_view()),
    path("api/v1/second-factor/off", SwitchedOff.as_view()),
    path("api/v1/forgotten", Forgotten.as_view()),
    path("api/v1/opening", Opening.as_view()),
    path("api/v1/sessions", Sessions.as_view()),
    path("api/v1/sessions/<uuid:id>", OneSession.as_view()),
    path("api/v1/shops/<slug:slug>/", include(IN_A_SHOP)),
    path("q/", include("quotes.pages.urls")),
    path("calendar/", include("quotes.pages.calendar_urls")),
    path("sw.js", app.worker),
    path("app.webmanifest", app.manifest),
    re_path(app.OURS, app.shell),
]
handler404 = "shop.views.app.not_found"
handler500 = "shop.views.app.unforeseen"
