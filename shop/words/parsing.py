"""Parses Fluent messages to sentences. Refuses syntax that the front end does not support as well."""

from fluent.syntax import FluentParser, ast

from shop.words.languages import LANGUAGE
from shop.words.sentences import Fact, Selector, Text


class IllFormedError(ValueError):
    """A message with invalid syntax, or with syntax that the front end does not support."""


def parse(message: str, language: str = LANGUAGE) -> Text:
    """The sentence of one message of that language's catalogue."""
    return _sentence(FluentParser(with_spans=False).parse_entry(message), language)


def _sentence(entry: ast.EntryType, language: str) -> Text:
    if isinstance(entry, ast.Junk):
        raise IllFormedError(f"{entry.annotations[0].message}: {(entry.content or '')[:60]}")
    if not isinstance(entry, ast.Message) or entry.value is None or entry.attributes:
        raise IllFormedError("only messages with a value and without attributes are sentences")
    return _text(entry.value, language)


def _text(pattern: ast.Pattern, language: str) -> Text:
    parts: list[str | Fact | Selector] = []
    for element in pattern.elements:
        if isinstance(element, ast.TextElement):
            part: str | Fact | Selector = element.value
        else:
            part = _placeable(element.expression, language)
        if isinstance(part, str) and parts and isinstance(parts[-1], str):
            parts[-1] += part
        else:
            parts.append(part)
    return Text(tuple(parts))


def _placeable(expression: object, language: str) -> str | Fact | Selector:
    match expression:
        case ast.StringLiteral():
            return str(expression.parse()["value"])
        case ast.VariableReference():
            return Fact(expression.id.name)
        case ast.SelectExpression(selector=ast.VariableReference() as selector):
            return _selector(selector.id.name, expression.variants, language)
    raise IllFormedError(f"a {type(expression).__name__} cannot stand in a sentence")


def _selector(fact: str, variants: list[ast.Variant], language: str) -> Selector:
    named = {_name(variant): _text(variant.value, language) for variant in variants}
    default = next(_name(variant) for variant in variants if variant.default)
    return Selector(fact, {name: text for name, text in named.items() if name != default}, named[default], language)


def _name(variant: ast.Variant) -> str:
    return variant.key.name if isinstance(variant.key, ast.Identifier) else str(variant.key.value)
