import json
from datetime import date
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from django.core.management.base import CommandError, CommandParser
from django.utils import timezone

from shop.access import Actor
from shop.calc.rules_schema import rules_schema, unknown_fields
from shop.management.current import CurrentDatabaseCommand
from shop.models import Shop
from shop.services.rules import add_rules, newest_rules, refusal


class Command(CurrentDatabaseCommand):
    help = (
        "Adds price rules from a JSON file, such as a preset of fixtures/rules, as the shop's next rule set. "
        "Without a file it prints the newest set; --schema prints the JSON Schema of such files."
    )
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, nargs="?")
        parser.add_argument("--shop", help="the shop's slug")
        parser.add_argument("--from", dest="valid_from", type=date.fromisoformat, help="YYYY-MM-DD; otherwise today")
        parser.add_argument("--schema", action="store_true")

    def handle(self, *args: Any, **options: Any) -> None:
        if options["schema"]:
            return self._print(rules_schema())
        shop = Shop.objects.filter(slug=options["shop"]).first()
        if shop is None:
            raise CommandError(f"--shop: there is no shop {options['shop']!r}. Open it with `manage.py shop`.")
        if options["file"]:
            return self._add(shop, _read(options["file"]), options["valid_from"])
        newest = newest_rules(shop)
        if newest is None:
            raise CommandError(f"{shop.name} has no price rules yet.")
        self._print(newest.rules)

    def _print(self, content: dict[str, Any]) -> None:
        self.stdout.write(as_text(content), ending="")

    def _add(self, shop: Shop, rules: dict[str, Any], valid_from: date | None) -> None:
        day = valid_from or timezone.now().astimezone(ZoneInfo(shop.zone)).date()
        row = add_rules(actor=Actor(shop=shop, member=None, channel="command"), rules=rules, valid_from=day)
        self.stdout.write(f"price rules {row.number} of {shop.name}, from {row.valid_from}")


def as_text(content: dict[str, Any]) -> str:
    return json.dumps(content, indent=2, ensure_ascii=False, sort_keys=True) + "\n"


def _read(file: Path) -> dict[str, Any]:
    try:
        content = json.loads(file.read_text("utf-8"))
    except OSError as error:
        raise CommandError(f"{file}: {error.strerror}.") from None
    except ValueError as error:
        raise CommandError(f"{file} is not JSON in UTF-8: {error}.") from None
    if not isinstance(content, dict):
        raise CommandError(f"{file}: price rules are one object, {{...}}.")
    if unknown := unknown_fields(content):
        raise CommandError(f"{file}: unknown: {', '.join(unknown)}. fixtures/rules/schema.json has all fields.")
    if problem := refusal(content):
        raise CommandError(f"{file}: {problem}. fixtures/rules/schema.json has all fields.")
    return content
