"""The least that Django does for the same rows: beside the product's own addresses, for the measurements only."""

from django.http import HttpRequest, JsonResponse
from django.urls import path

from kitting.models import PullLine
from shop.urls import handler404, handler500
from shop.urls import urlpatterns as product

__all__ = ["handler404", "handler500"]

FIELDS = ("id", "position", "kind", "kit", "number", "title", "quantity", "unit", "carton", "bag", "operation")


def rows(request: HttpRequest, id: str) -> JsonResponse:
    return JsonResponse({"lines": list(PullLine.objects.filter(pull_list=id).order_by("position").values(*FIELDS))})


def person(request: HttpRequest) -> JsonResponse:
    """Only who is signed in: the session and the person are read from the database."""
    return JsonResponse({"id": str(request.user.pk)})


urlpatterns = [path("bare", person), path("bare/<uuid:id>", rows), *product]
