from django.conf import settings
from django.http import HttpRequest
from rest_framework.request import Request


def address(request: Request | HttpRequest, path: str) -> str:
    """The address that people open from outside: the public one if it is set, else that of this request."""
    return settings.PUBLIC_ADDRESS.rstrip("/") + path if settings.PUBLIC_ADDRESS else request.build_absolute_uri(path)
