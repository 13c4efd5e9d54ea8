"""The demonstration's sentences use the same vocabulary as the catalogues."""

import re

import pytest
from django.conf import settings

from quotes.calc.stages import bare
from shop.imports.labour import KIND as LABOUR
from shop.imports.rules import KIND as RULES
from shop.tables.engine import FileKind, read

pytestmark = pytest.mark.once

DEMO = settings.BASE_DIR / "fixtures" / "demo"
SHOPS = ("saltmarsh", "copperfell")
NEVER = re.compile(r"\b(explod\w*|digest|dry.run|sublet|revision)\b", re.IGNORECASE)


FILES = [(RULES, f"{shop}/rules.xlsx") for shop in SHOPS] + [
    (LABOUR, name) for name in ("saltmarsh/labour.xlsx", "copperfell/operations.csv", "copperfell/templates.csv")
]


@pytest.mark.parametrize(("kind", "name"), FILES)
def test_no_word_that_never_stands_on_a_screen(kind: FileKind, name: str) -> None:
    reading = read(kind, name, (DEMO / name).read_bytes())
    texts = [str(value) for row in reading.rows for value in row.values.values()]
    assert len(texts) > 100 and [text for text in texts if NEVER.search(text)] == []


@pytest.mark.parametrize("shop", SHOPS)
def test_nobody_agrees_to_what_is_not_shown(shop: str) -> None:
    reading = read(RULES, "rules.xlsx", (DEMO / shop / "rules.xlsx").read_bytes())
    words = [row.get("text") for row in reading.of("words")]
    assert len(words) > 5 and not [text for text in words if "shown" in text]


@pytest.mark.parametrize("shop", SHOPS)
def test_outside_work_is_taxed(shop: str) -> None:
    reading = read(RULES, "rules.xlsx", (DEMO / shop / "rules.xlsx").read_bytes())
    assert "outside work" in reading.of("taxes")[0].get("classes")


@pytest.mark.parametrize("name", ["saltmarsh/labour.xlsx", "copperfell/templates.csv"])
def test_a_stage_is_named_as_a_heading(name: str) -> None:
    reading = read(LABOUR, name, (DEMO / name).read_bytes())
    stages = {bare(value) for row in reading.rows if (value := str(row.values.get("stage") or ""))}
    assert len(stages) > 5 and [stage for stage in stages if not stage[0].isupper()] == []
