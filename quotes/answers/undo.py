"""A change to a draft that can be undone, or made again."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer


class DraftStepOut(Answer, frozen=True):
    """A change to a draft."""

    words: Annotated[str, Meta(description='The change in words: "Front brake kit added".')]
