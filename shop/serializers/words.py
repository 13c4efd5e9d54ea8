"""Our own sentences for errors in a field of a request, instead of the framework's.

The sentences stand in the catalogue as `field-says-KIND-code`, KIND being the framework's kind of field, with its facts
(`{ $max_length }`). A kind of field without one of its own takes that of the kind it is made from.
"""

from typing import Any

from django.utils.functional import lazy
from rest_framework import serializers

from shop.words import catalogue, template

SAYS = "field-says-"

sentence = lazy(template, str)
"""The sentence with its facts open, as the framework fills them in; parsed when it is first needed."""


def speak_our_words() -> None:
    """Replaces the framework's sentences by the catalogue's. Called once, when the apps are ready."""
    for key in catalogue():
        if key.startswith(SAYS):
            kind, code = key.removeprefix(SAYS).split("-")
            of: Any = getattr(serializers, kind)
            of.default_error_messages = {**of.default_error_messages, code: sentence(key)}
