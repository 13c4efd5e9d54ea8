"""Parses Fluent messages to sentences. Refuses syntax that the front end does not support as well."""

from fluent.syntax import FluentParser, ast

from shop.words.sentences import Fact, Selector, Text


class IllFormedError(ValueError):
    """A message with invalid syntax, or with syntax that the front end does not support."""


def parse(message: str) -> Text:
    """The sentence of one message."""
    return _sentence(FluentParser(with_spans=False).parse_entry(message))


def _sentence(entry: ast.EntryType) -> Text:
    if isinstance(entry, ast.Junk):
        raise IllFormedError(f"{entry.annotations[0].message}: {(entry.content or '')[:60]}")
    if not isinstance(entry, ast.Message) or entry.value is None or entry.attributes:
        raise IllFormedError("only messages with a value and without attributes are sentences")
    return _text(entry.value)


def _text(pattern: ast.Pattern) -> Text:
    parts: list[str | Fact | Selector] = []
    for element in pattern.elements:
        part = element.value if isinstance(element, ast.TextElement) else _placeable(element.expression)
        if isinstance(part, str) and parts and isinstance(parts[-1], str):
            parts[-1] += part
        else:
            parts.append(part)
    return Text(tuple(parts))


def _placeable(expression: object) -> str | Fact | Selector:
    match expression:
        case ast.StringLiteral():
            return str(expression.parse()["value"])
        case ast.VariableReference():
            return Fact(expression.id.name)
        case ast.SelectExpression(selector=ast.VariableReference() as selector):
            return _selector(selector.id.name, expression.variants)
    raise IllFormedError(f"a {type(expression).__name__} cannot stand in a sentence")


def _selector(fact: str, variants: list[ast.Variant]) -> Selector:
    named = {_name(variant): _text(variant.value) for variant in variants}
    default = next(_name(variant) for variant in variants if variant.default)
    return Selector(fact, {name: text for name, text in named.items() if name != default}, named[default])


def _name(variant: ast.Variant) -> str:
    return variant.key.name if isinstance(variant.key, ast.Identifier) else str(variant.key.value)
