from typing import Any

from django import template

from shop import words
from shop.words import languages

register = template.Library()


@register.simple_tag
def say(key: str, **facts: Any) -> str:
    return words.say(key, **facts)


@register.simple_tag
def language() -> str:
    """The tag of the language that the page is in."""
    return languages.language()


@register.filter
def unbroken(number: str) -> str:
    """A telephone number that stays on one line."""
    return number.replace(" ", "\u00a0")
