"""Addresses that repeat the request as the server passed it on, and one that answers only when a file appears."""

import os
import time
from pathlib import Path

from django.http import HttpRequest, HttpResponse, JsonResponse
from django.urls import path

from shop.serving import background
from shop.urls import handler404, handler500, urlpatterns
from tests.door.serving import ANSWER

MEETING = Path(os.environ["MEETING"])  # a folder in which the server and its test leave each other files


def seen(request: HttpRequest) -> HttpResponse:
    return JsonResponse({"address": request.META["REMOTE_ADDR"], "secure": request.is_secure()})


def slow(request: HttpRequest) -> HttpResponse:
    (MEETING / "begun").touch()
    while not (MEETING / "go-on").exists():
        time.sleep(0.01)
    return HttpResponse(ANSWER, content_type="application/octet-stream")


background.register((MEETING / "thread-started").touch, (MEETING / "thread-stopped").touch)
urlpatterns = [path("seen", seen), path("slow", slow), *urlpatterns]
__all__ = ["handler404", "handler500", "urlpatterns"]
