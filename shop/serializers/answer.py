from typing import Any, ClassVar

from rest_framework import serializers

from shop.answers.base import Answer


class AnswerField(serializers.Field[Any, Any, Any, Any]):
    """An answer inside the shape of one that is still a serializer. It never runs: OpenAPI reads it."""

    named: ClassVar[set[type[Answer]]] = set()

    def __init__(self, answer: type[Answer], **kw: Any) -> None:
        super().__init__(**kw)
        self.answer = answer
        self.named.add(answer)
