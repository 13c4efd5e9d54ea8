from typing import Any

from django import template

from shop import words

register = template.Library()


@register.simple_tag
def say(key: str, **facts: Any) -> str:
    return words.say(key, **facts)
