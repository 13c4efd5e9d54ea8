"""Languages as tags of BCP 47, such as "en-GB" or "zh-Hant"."""

from typing import Any

from django.core.validators import RegexValidator
from django.db import models

LONGEST = 12  # three letters of the language, four of the script, three digits of the region

is_language_tag = RegexValidator(
    r"^[a-z]{2,3}(-[A-Z][a-z]{3})?(-([A-Z]{2}|[0-9]{3}))?\Z", "not a language tag such as en-GB", "language_tag"
)


class LanguageField(models.CharField):  # type: ignore[type-arg]  # the mypy plug-in types each use
    """A language, with its script and region where they matter; extensions and variants are not allowed.

    `clean_fields` refuses any other text. A language without a catalogue of words is allowed.
    """

    default_validators = [is_language_tag]

    def __init__(self, *args: Any, **kw: Any) -> None:
        super().__init__(*args, **{"max_length": LONGEST, **kw})
