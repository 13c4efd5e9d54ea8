import json
from functools import cache

from django import template
from django.conf import settings
from django.templatetags.static import static

register = template.Library()


@register.simple_tag
def stylesheet() -> str:
    """The address of the app's stylesheet, which server-rendered pages share."""
    return _stylesheet()


@cache
def _stylesheet() -> str:
    manifest = settings.FRONT / ".vite" / "manifest.json"
    entry = json.loads(manifest.read_text("utf-8"))["index.html"]
    return static(f"app/{entry['css'][0]}")
