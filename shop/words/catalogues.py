"""The sentences of a language, from `APP/words/LANGUAGE/*.ftl` of every app; what it lacks is said in our own.

A second language needs a folder and nothing else. Its keys and facts are those of our own language.

Reading a file only finds where its messages begin. A message is parsed on first use, or all at once by `parse_all`,
which takes 0.3 s: the server calls it before the first request, and commands do without it.
"""

import re
from collections.abc import Iterator, Mapping

from shop.words.languages import LANGUAGE, PROJECT
from shop.words.sentences import Text

MESSAGE = re.compile(r"^([a-zA-Z][\w-]*) *=.*(?:\n(?:[ \t].*|(?=\n)))*", re.MULTILINE)
"""A message with the indented lines that belong to it."""


def ident(key: str) -> str:
    """The Fluent identifier of a key: dots become dashes."""
    return key.replace(".", "-")


def messages_of(language: str) -> dict[str, str]:
    """Identifier -> message, of what there is in that language."""
    messages: dict[str, str] = {}
    for path in sorted(PROJECT.glob(f"*/words/{language}/*.ftl")):
        for message in MESSAGE.finditer(path.read_text("utf-8")):
            assert message[1] not in messages, f"{message[1]} stands in two catalogues"
            messages[message[1]] = message[0]
    return messages


class Catalogue(Mapping[str, Text]):
    """Key or identifier -> sentence, for every app. Iterates over identifiers."""

    def __init__(self, language: str) -> None:
        self.language = language
        self._sentences: dict[str, Text] = {}
        self._translated = messages_of(language) if language != LANGUAGE else {}
        self.messages = messages_of(LANGUAGE) | self._translated

    def __getitem__(self, key: str) -> Text:
        sentence = self._sentences.get(key)
        if sentence is None:
            sentence = self._sentences[key] = self._parsed(ident(key))
        return sentence

    def _parsed(self, identifier: str) -> Text:
        from shop.words.parsing import IllFormedError, parse  # takes 30 ms, which a command without words saves

        try:
            return parse(self.messages[identifier], self.language if identifier in self._translated else LANGUAGE)
        except IllFormedError as error:
            raise IllFormedError(f"{identifier}: {error}") from None

    def __contains__(self, key: object) -> bool:
        return isinstance(key, str) and ident(key) in self.messages

    def __iter__(self) -> Iterator[str]:
        return iter(self.messages)

    def __len__(self) -> int:
        return len(self.messages)

    def parse_all(self) -> None:
        for identifier in self:
            self[identifier]
