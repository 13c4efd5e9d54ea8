"""No sentence that a person reads stands outside the catalogues, and none of them uses a word we avoid."""

import ast
import re
from collections.abc import Iterable, Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import pytest
from django.conf import settings

from shop.words import catalogue, knows
from shop.words.catalogues import MESSAGE
from shop.words.parsing import parse

APPS = ("shop", "kitting", "quotes")
ROOT = Path(settings.BASE_DIR)
NEVER_ON_A_SCREEN = re.compile(
    r"\b(explod\w*|digest|dry.run|sublet|revision|backflush|kanban|canned|pick.?face|putaway|BOM)\b", re.IGNORECASE
)


@cache
def sources() -> list[tuple[Path, ast.Module]]:
    paths = [path for app in APPS for path in sorted((ROOT / app).rglob("*.py")) if "migrations" not in path.parts]
    return [(path.relative_to(ROOT), ast.parse(path.read_text("utf-8"))) for path in paths]


@cache
def nodes(tree: ast.AST) -> tuple[ast.AST, ...]:
    """The node and all below it: one walk for all who ask."""
    return tuple(ast.walk(tree))


def calls(tree: ast.AST, name: str) -> list[ast.Call]:
    return _calls_by_name(tree).get(name, [])


@cache
def _calls_by_name(tree: ast.AST) -> dict[str, list[ast.Call]]:
    """The calls below a node by the name of the function or method."""
    by_name: dict[str, list[ast.Call]] = {}
    for node in nodes(tree):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", "") or getattr(node.func, "attr", "")
            by_name.setdefault(name, []).append(node)
    return by_name


def literal(node: ast.AST) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def on_the_server() -> Iterator[tuple[str, str]]:
    """Every way that every sentence of the catalogue can read, with {facts}."""
    for key, text in catalogue().items():
        for reading in text.readings():
            yield key, reading


def test_every_sentence_asked_for_is_there_with_its_facts() -> None:
    for path, tree in sources():
        for call in calls(tree, "say"):
            key = literal(call.args[0]) if call.args else None
            if key is None or not isinstance(call.func, ast.Name):
                continue
            assert knows(key), f"{path}:{call.lineno}: no sentence {key}"
            arguments = {keyword.arg for keyword in call.keywords}
            if None not in arguments:
                facts = {*catalogue()[key].facts()}
                assert facts <= arguments, f"{path}:{call.lineno}: {key} wants {facts - arguments}"


def test_every_problem_has_a_title_and_a_remedy() -> None:
    calls_read = 0
    for path, tree in sources():
        for call in (*calls(tree, "Problem"), *calls(tree, "RequestError")):
            slug = literal(call.args[1]) if len(call.args) > 1 else None
            if slug:
                calls_read += 1
                assert knows(f"problem.{slug}.title") and knows(f"problem.{slug}.detail"), f"{path}: {slug}"
        for call in calls(tree, "field_error"):
            key = literal(call.args[1])
            assert key is None or knows(f"field.{key}"), f"{path}: field.{key}"
    assert calls_read > 20


class Text(HTMLParser):
    """Text and read-aloud attributes that a template holds of its own."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [
            value for name, value in attrs if name in ("title", "alt", "placeholder", "aria-label") and value
        ]

    def handle_data(self, data: str) -> None:
        self.found.append(data)


def own_words(template: str) -> list[str]:
    bare = re.sub(r"\{%.*?%\}|\{\{.*?\}\}|\{#.*?#\}", " ", template, flags=re.DOTALL)
    parser = Text()
    parser.feed(bare)
    return [text.strip() for text in parser.found if re.search(r"[A-Za-z]{2}", text)]


@pytest.mark.parametrize("path", sorted(ROOT.glob("*/templates/**/*.html")), ids=lambda path: path.name)
def test_a_template_has_no_words_of_its_own(path: Path) -> None:
    assert own_words(path.read_text("utf-8")) == []


PUT_TOGETHER = re.compile(r"{% say [^%]*%}(?:{%[^%]*%})*:")
"""A message with a colon behind it, after which a template adds a fact."""


@pytest.mark.parametrize("path", sorted(ROOT.glob("*/templates/**/*.html")), ids=lambda path: path.name)
def test_a_template_puts_no_sentence_together(path: Path) -> None:
    assert PUT_TOGETHER.findall(path.read_text("utf-8")) == []


def test_a_planted_colon_is_seen() -> None:
    assert PUT_TOGETHER.search("{% say 'a.b' n=n %}{% if c %}: {{ c }}{% endif %}")
    assert not PUT_TOGETHER.search("{% say 'a.b' %}</dt><dd>{{ c }}: {{ d }}</dd>")


def test_planted_words_are_seen() -> None:
    assert own_words("<p>{% say 'a.b' %} Hello</p>") == ["Hello"]
    assert own_words('<button aria-label="Close">{{ x }}</button>') == ["Close"]


def test_no_sentence_uses_a_word_we_avoid() -> None:
    sentences = {key: re.sub(r"{\w+}", "", text) for key, text in (*on_the_server(), *in_the_browser())}
    words = {key: NEVER_ON_A_SCREEN.search(sentence) for key, sentence in sentences.items()}
    assert {key: match[0] for key, match in words.items() if match} == {}


# Words with a plainer or clearer one: an issue is also a fault, a kit that is taken off is also a part unbolted.
RATHER = {
    r"issues?": "version",
    r"(the|your|say|says|said) yes": "acceptance, accept",
    r"(take|takes|taken|took|taking) (in|back)": "import, withdraw, cancel or undo",
    r"(take|takes|taken|took|taking) (it |them )?off": "remove",
    r"makers?'?": "manufacturer",
    r"(un)?stated": "recorded",
    r"suppos(e|es|ed|ing)": "assumed",
    r"comput(e|ed|es|ing)": "worked out",
    r"laps(e|ed|es|ing)": "expired",
    r"(this|it) is no [a-z-]+": "this is not a ...",
    r"(once more|anew|meanwhile|lately)": "again, in the meantime, recent",
    r"behind the point": "decimal places",
    r"(at most|at least|fewer than|more than|up to|[0-9]+)\s+(\S+ )?letters(?! and digits)": "characters",
    r"papers?": "PDF, page, document; of the app: light and dark",
    r"(?<!job )(?<!data )sheets?": "page, screen; a workbook's own sheet stands in SHEETS_OF_A_FILE",
    r"(?<!quotation )(?<!byte-order )marks?": "check code, sign",
    r"holds? (point|up|for|good|only|before|until)|held up|on hold": "check point, delay, apply",
    r"house rules": "price rules",
    r"(please know|reckoned|laid aside|hang on|nought)": "what one would say aloud",
}
SHEETS_OF_A_FILE = (
    "import-",
    "import.",
    "office.too_large.detail",
    "office.headings.sheet",
    "office.problems.head.sheet",
)
"""Keys of sentences on a workbook, which is made of sheets."""

AVOIDED = re.compile(rf"\b({'|'.join(RATHER)})\b", re.IGNORECASE)


@cache
def in_the_browser() -> tuple[tuple[str, str], ...]:
    """Every way that every sentence of the front end can read, with {facts}."""
    paths = sorted((ROOT / "frontend" / "src" / "lib" / "messages" / "en-GB").glob("*.ftl"))
    messages = [message for path in paths for message in MESSAGE.finditer(path.read_text("utf-8"))]
    return tuple(
        (message[1].replace("-", "."), reading) for message in messages for reading in parse(message[0]).readings()
    )


def own_part(key: str, sentence: str) -> str:
    """The sentence without its facts, and without the sheets of a workbook."""
    sentence = re.sub(r"\{\w+\}", "", sentence)
    return re.sub(r"\bsheets?\b", "", sentence, flags=re.IGNORECASE) if key.startswith(SHEETS_OF_A_FILE) else sentence


def avoided(sentences: Iterable[tuple[str, str]]) -> dict[str, str]:
    hits = ((key, AVOIDED.search(own_part(key, sentence))) for key, sentence in sentences)
    return {key: match[0] for key, match in hits if match}


def test_no_sentence_uses_a_word_that_has_a_plainer_one() -> None:
    assert avoided(on_the_server()) == {}
    assert len(in_the_browser()) > 700
    assert avoided(in_the_browser()) == {}


def test_a_planted_word_is_seen() -> None:
    planted = ["Say yes to issue {n}", "This is no date.", "As the maker tells.", "Paper: night", "Skip to the sheet"]
    planted += [
        "Mark A8ED 07FE",
        "Hold point. A second person looks.",
        "At most {n} letters.",
        "Parts hold up the job.",
    ]
    assert len(avoided((str(at), sentence) for at, sentence in enumerate(planted))) == len(planted)


def test_a_word_in_its_one_right_meaning_is_left_alone() -> None:
    right = {"a": "In job sheet order", "b": "The circuit holds {n} L.", "c": "Seventeen letters and digits."}
    right |= {
        "d": "Write three letters, as in EUR.",
        "import.e": "Sheet {page} is hidden.",
        "f": "Stray quotation marks",
    }
    assert avoided(iter(right.items())) == {}


def test_commands_say_it_the_same_way() -> None:
    for path, tree in sources():
        if "commands" in path.parts:
            for node in nodes(tree):
                text = literal(node)
                if text and " " in text:
                    assert not AVOIDED.search(text), f"{path}:{node.lineno}: {text}"


def test_sentences_read_like_ours() -> None:
    """No exclamation marks, no chatter, British spelling, no blanks at the ends."""
    for key, sentence in (*on_the_server(), *in_the_browser()):
        assert "!" not in sentence, f"{key}: no exclamation marks"
        assert not re.search(r"\b(oops|please try again|submit)\b", sentence, re.IGNORECASE), key
        assert not re.search(r"\b(color|canceled|labor|catalog|center|gray)\b", sentence, re.IGNORECASE), key
        assert "OK" not in sentence or key == "pull_paper-ok", key  # the head of a narrow column
        assert sentence == sentence.strip(), key


def glue(tree: ast.AST) -> Iterator[ast.AST]:
    """Messages put together with other text by code, and first letters that code changes."""
    for node in nodes(tree):
        if isinstance(node, ast.JoinedStr) and len(node.values) > 1:
            yield from (
                value for value in node.values if isinstance(value, ast.FormattedValue) and is_message(value.value)
            )
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
            yield from (side for side in (node.left, node.right) if is_message(side))
        if isinstance(node, ast.Call) and getattr(node.func, "attr", "") in ("upper", "lower", "capitalize"):
            of = getattr(node.func, "value", None)
            if isinstance(of, ast.Subscript) and isinstance(of.slice, ast.Slice) or node.func.attr == "capitalize":  # type: ignore[attr-defined]
                yield node


def is_message(node: ast.AST) -> bool:
    return isinstance(node, ast.Call) and getattr(node.func, "id", "") == "say"


def test_no_code_puts_a_sentence_together() -> None:
    places = {path.as_posix(): len([*glue(tree)]) for path, tree in sources() if "commands" not in path.parts}
    assert {path: number for path, number in places.items() if number} == {}


@pytest.mark.parametrize("code", ["f'{say(key)} {more}'", "say('a.b') + more", "words[:1].upper()", "a.capitalize()"])
def test_planted_glue_is_seen(code: str) -> None:
    assert len([*glue(ast.parse(code))]) == 1


@pytest.mark.parametrize("code", ["say('a.b', n=n)", "f'{n}:{m}'", "f'{say(key)}'", "words.upper()", "'; '.join(a)"])
def test_no_glue_is_seen_where_there_is_none(code: str) -> None:
    assert [*glue(ast.parse(code))] == []
