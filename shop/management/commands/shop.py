from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from django.core.exceptions import ValidationError
from django.core.management.base import CommandError, CommandParser
from django.utils import timezone

from shop.api.problems import refused_words
from shop.archives.manifest import Archive, ArchiveError
from shop.archives.reading import import_archive
from shop.archives.taking import export_shop
from shop.management.current import CurrentDatabaseCommand
from shop.models import Shop
from shop.services.people import open_shop

FACTS = (
    *("slug", "name", "currency", "exponent", "zone", "units", "language", "market", "phone"),
    *("address", "email", "registration", "tax_number"),
)


class Command(CurrentDatabaseCommand):
    help = (
        "Opens a workshop, or changes what customers are told of it: name, telephone, address and so on. "
        "With --export it writes a whole shop into one file, with --import-archive it adds the shop of such a file."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", nargs="?", help="first part of its web address, such as saltmarsh")
        parser.add_argument("--export", type=Path, metavar="FILE.zip", help="write the shop named by --shop to a file")
        parser.add_argument("--shop", help="the slug of the shop to export")
        parser.add_argument("--import-archive", type=Path, metavar="FILE.zip", help="add the shop of an exported file")
        parser.add_argument("--name")
        parser.add_argument("--currency", help="ISO 4217, three letters")
        parser.add_argument("--exponent", type=int, help="decimals of the currency, where not ISO 4217's")
        parser.add_argument("--zone", help="IANA time zone")
        parser.add_argument("--units", default="metric", choices=["metric", "imperial"])
        parser.add_argument("--language", default="en-GB", help="of its screens and documents: a BCP 47 tag")
        markets = [market.value for market in Shop.Market]
        parser.add_argument(
            "--market", default="", choices=["", *markets], help="where its vehicles were sold, for the check of a VIN"
        )
        parser.add_argument("--phone", default="", help="shown to customers")
        for name in ("address", "email", "registration", "tax-number"):
            parser.add_argument(
                f"--{name}", default="", help="shown to customers, on the page, the PDF and the receipt"
            )

    def handle(self, *args: Any, **options: Any) -> None:
        if options["export"] or options["import_archive"]:
            return self.move(options)
        if missing := [name for name in ("slug", "name", "currency", "zone") if not options[name]]:
            raise CommandError(f"the following arguments are required: {', '.join(missing)}")
        if options["zone"] not in available_timezones():
            raise CommandError(f"--zone: {options['zone']!r} is not an IANA zone. Enter one like {ZoneInfo('UTC')}.")
        if not (len(options["currency"]) == 3 and options["currency"].isalpha() and options["currency"].isupper()):
            raise CommandError(f"--currency: {options['currency']!r} is not an ISO 4217 code: three capital letters.")
        facts = {k: options[k] for k in FACTS}
        try:
            shop, new = open_shop(**facts)
        except ValidationError as error:
            raise CommandError(refused_words(error)) from None
        self.stdout.write(f"{'opened' if new else 'updated'} {shop.name} ({shop.slug})")

    def move(self, options: dict[str, Any]) -> None:
        try:
            if path := options["export"]:
                archive = export_shop(options["shop"] or options["slug"] or "", path, timezone.now())
                self.stdout.write(f"exported {_content(archive)} to {path}")
                return
            archive, new_people = import_archive(options["import_archive"], timezone.now())
        except ArchiveError as error:
            raise CommandError(str(error)) from None
        except OSError as error:
            raise CommandError(f"{error.filename}: {error.strerror}.") from None
        self.stdout.write(f"imported {_content(archive)}")
        if new_people:
            self.stdout.write(f"Without a password yet (manage.py member, --password-stdin): {', '.join(new_people)}")


def _content(archive: Archive) -> str:
    files = sum(name.startswith("files/") for name in archive.parts)
    return f"the shop {archive.slug}: {sum(archive.counts.values())} rows, {files} files"
