from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser

from shop.access import Actor
from shop.api.problems import problem
from shop.errors import RequestError
from shop.management.current import CurrentDatabaseCommand
from shop.models import Shop
from shop.services import imports
from shop.tables.findings import MUST_FIX
from shop.tables.import_result import result_of
from shop.tables.registry import kinds, names
from shop.words import say


class Command(CurrentDatabaseCommand):
    help = "Imports a file completely or not at all, after reporting every problem. --check only reports."
    requires_system_checks: list[str] = []  # of the web half, which takes a second to load and is not used here

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("kind", help=", ".join(names()))
        parser.add_argument("file", type=Path)
        parser.add_argument("--shop", required=True, help="the shop's slug")
        parser.add_argument("--supplier", default="", help="who the file is from, if it does not say so")
        parser.add_argument(
            "--map", action="append", default=[], metavar="FIELD=HEADING", help="this column holds this field"
        )
        parser.add_argument("--kit", default="", help="the kit's number, if the file does not say it")
        parser.add_argument("--title", default="", help="the kit's title, if the file does not say it")
        parser.add_argument(
            "--answer", action="append", default=[], metavar="QUESTION=ANSWER", help="answers a question about the file"
        )
        parser.add_argument("--check", action="store_true", help="report only; save nothing")

    def handle(self, *args: Any, **options: Any) -> None:
        kind = kinds().get(options["kind"])
        if kind is None:
            raise CommandError(f"there is no kind of file {options['kind']!r}. Known: {', '.join(names())}.")
        shop = Shop.objects.filter(slug=options["shop"]).first()
        if shop is None:
            raise CommandError(f"--shop: there is no shop {options['shop']!r}. Open it with `manage.py shop`.")
        try:
            body = options["file"].read_bytes()
        except OSError as error:
            raise CommandError(f"{options['file']}: {error.strerror}.") from None
        actor = Actor(shop=shop, member=None, channel="command")
        source = {"supplier": options["supplier"], "mapping": _pairs(options["map"], "map"), "steps": _steps(options)}
        reading = imports.understand(actor=actor, kind=kind, file_name=options["file"].name, body=body, **source)
        planned, findings = imports.look(actor=actor, kind=kind, reading=reading)
        result = result_of(kind, reading, planned, findings)
        self._say(result, brief=options["verbosity"] == 0)
        if not result["can_take_in"]:
            unanswered = sum(question["value"] is None for question in result["questions"])
            raise CommandError(say("problem.import-not-yet.detail", n=result["counts"][MUST_FIX] + unanswered))
        if options["check"]:
            return
        try:
            file = imports.keep(actor=actor, kind=kind, reading=reading, body=body, **source)
            imports.take_in(actor=actor, file=file, reading=reading)
        except RequestError as error:
            raise CommandError(problem(error).body()["detail"]) from None
        self.stdout.write(say("import.taken", name=options["file"].name))

    def _say(self, result: dict[str, Any], *, brief: bool) -> None:
        self.stdout.write(result["becomes"]["title"])
        for line in result["becomes"]["words"]:
            self.stdout.write(f"  {line}")
        for question in result["questions"]:
            if question["value"] is None:
                self.stdout.write(f"  {question['words']} {question['why']}")
                for choice in question["choices"]:
                    self.stdout.write(f"    --answer {question['key']}={choice['value']:<10} {choice['words']}")
        for finding in result["findings"]:
            if brief and finding["weight"] != MUST_FIX:
                continue
            where = " ".join(part for part in (finding["sheet"], finding["cell"]) if part) or "-"
            weight = say(f"import.weight.{finding['weight']}")
            sentences = " ".join(part for part in (finding["words"], finding["remedy"]) if part)
            self.stdout.write(f"  {weight:<13} {where:<20} {sentences}")


EXAMPLES = {
    "map": "write FIELD=HEADING, as in --map quantity=Pieces.",
    "answer": "write QUESTION=ANSWER, as in --answer sections=bag.",
}


def _pairs(arguments: list[str], option: str) -> dict[str, str]:
    pairs = {}
    for argument in arguments:
        name, sign, value = argument.partition("=")
        if not (sign and name.strip() and value.strip()):
            raise CommandError(f"--{option} {argument!r}: {EXAMPLES[option]}")
        pairs[name.strip()] = value.strip()
    return pairs


def _steps(options: dict[str, Any]) -> list[dict[str, Any]]:
    """The decisions that the options make, as the steps of a file."""
    typed = [{"do": "field", "field": name, "text": options[name]} for name in ("kit", "title") if options[name]]
    answers = _pairs(options["answer"], "answer").items()
    return [*typed, *({"do": "answer", "question": question, "text": text} for question, text in answers)]
