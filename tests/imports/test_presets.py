"""Price rules as a file: the schema is current, the presets fit it, and the command adds all of a file or nothing."""

import copy
import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.core.management import call_command
from django.core.management.base import CommandError
from jsonschema import Draft202012Validator

from quotes.models import Revision
from shop.calc.errors import CalculationError
from shop.calc.rules import Rules
from shop.calc.rules_schema import rules_schema, unknown_fields
from shop.imports.rules import KIND
from shop.management.commands.rules import as_text
from shop.models import RuleSet
from tests.cast import Cast
from tests.imports.test_kinds import planned
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

FOLDER = Path(settings.BASE_DIR) / "fixtures" / "rules"
DEMO = Path(settings.BASE_DIR) / "fixtures" / "demo"
PRESETS = ("minimal", "saltmarsh", "copperfell")


def preset(name: str) -> dict[str, Any]:
    content: dict[str, Any] = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    return content


def allows(content: Any) -> bool:
    return Draft202012Validator(rules_schema()).is_valid(content)


def reads(content: Any) -> bool:
    try:
        Rules.from_json(content)
    except CalculationError:
        return False
    return True


def fields(schema: dict[str, Any], path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], bool]]:
    """(path, whether it is required) of every field that is in no list."""
    for name, field in schema["properties"].items():
        yield (*path, name), name in schema["required"]
        if "properties" in field:
            yield from fields(field, (*path, name))


def changed(content: dict[str, Any], path: tuple[str, ...], value: Any) -> dict[str, Any]:
    """A copy with another value at `path`; without the field for `...`."""
    copied = copy.deepcopy(content)
    holder = copied
    for name in path[:-1]:
        holder = holder.setdefault(name, {})
    holder[path[-1]] = value
    if value is ...:
        del holder[path[-1]]
    return copied


def test_the_schema_in_the_project_is_current() -> None:
    stored = (FOLDER / "schema.json").read_text("utf-8")
    assert stored == as_text(rules_schema()), "manage.py rules --schema > fixtures/rules/schema.json"
    Draft202012Validator.check_schema(rules_schema())


@pytest.mark.parametrize("name", PRESETS)
def test_a_preset_fits_the_schema_and_can_be_used(name: str) -> None:
    assert allows(preset(name)) and reads(preset(name))
    assert unknown_fields(preset(name)) == []


@pytest.mark.parametrize("name", ["saltmarsh", "copperfell"])
def test_the_preset_of_a_demonstration_shop_is_its_workbook(name: str) -> None:
    assert planned(KIND, (DEMO / name / "rules.xlsx").read_bytes()).plan.rules == preset(name)


def test_schema_and_reader_agree_on_each_field() -> None:
    """Without a required field, and with a value of no possible type, both refuse; without another both take it."""
    whole = preset("saltmarsh")
    disagreed = [
        (path, value)
        for path, _ in fields(rules_schema())
        for value in (..., 0.5, "-1", "Infinity", [1])
        if allows(changed(whole, path, value)) != reads(changed(whole, path, value))
    ]
    # A consent to begin within the withdrawal period needs its days: a rule over two fields, which a schema cannot say.
    assert disagreed == [(("withdrawal",), ...), (("withdrawal", "days"), ...)]
    required = {".".join(path) for path, needed in fields(rules_schema()) if needed}
    assert required == {"labour_rates", "markup", "markup.mode", "markup.bands", "supplies.rate"}


def test_a_misspelt_field_is_named_wherever_it_stands() -> None:
    wrong = {
        **preset("copperfell"),
        "validty_days": 3,
        "markup": {"mode": "graduated", "bands": [{"x": "1", "to": "2"}]},
    }
    assert unknown_fields(wrong) == ["markup.bands[0].to", "validty_days"]
    assert not allows(wrong)


def told(*arguments: Any, **options: Any) -> str:
    out = io.StringIO()
    call_command("rules", *arguments, stdout=out, **options)
    return out.getvalue()


@pytest.mark.django_db
def test_a_preset_becomes_the_next_set_and_changes_no_quote_that_was_sent(cast: Cast) -> None:
    stage = make_stage(cast)
    stage.sent()
    before = Revision.objects.values_list("snapshot", "rules", "gross").get(state="sent")
    slug = cast.shop.slug
    assert told(FOLDER / "minimal.json", shop=slug, valid_from=None) == (
        f"price rules 2 of {cast.shop.name}, from {RuleSet.objects.get(shop=cast.shop, number=2).valid_from}\n"
    )
    assert json.loads(told(shop=slug)) == preset("minimal")
    assert Revision.objects.values_list("snapshot", "rules", "gross").get(state="sent") == before
    told(FOLDER / "minimal.json", shop=slug, valid_from=None)
    assert RuleSet.objects.filter(shop=cast.shop).count() == 2


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("content", "problem"),
    [
        ("{", "is not JSON"),
        ("[]", "are one object"),
        ('{"labour_rates": {}, "markup": {"mode": "graduated"}}', "markup.bands: missing"),
        ('{"labour_rates": {"a": 1.5}, "markup": {"mode": "graduated", "bands": []}}', "labour_rates.a: 1.5"),
        ('{"labour_rate": {}}', "unknown: labour_rate"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused_by_name(cast: Cast, tmp_path: Path, content: str, problem: str) -> None:
    file = tmp_path / "rules.json"
    file.write_text(content)
    with pytest.raises(CommandError, match=problem):
        told(file, shop=cast.shop.slug)
    assert not RuleSet.objects.filter(shop=cast.shop).exists()
