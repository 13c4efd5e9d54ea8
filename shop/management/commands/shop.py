from typing import Any
from zoneinfo import ZoneInfo, available_timezones

from django.core.exceptions import ValidationError
from django.core.management.base import CommandError, CommandParser

from shop.api.problems import refused_words
from shop.management.current import CurrentDatabaseCommand
from shop.models import Shop
from shop.services.people import open_shop

FACTS = (
    *("slug", "name", "currency", "exponent", "zone", "units", "language", "market", "phone"),
    *("address", "email", "registration", "tax_number"),
)


class Command(CurrentDatabaseCommand):
    help = "Opens a workshop, or changes what customers are told of it: name, telephone, address and so on."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help="first part of its web address, such as saltmarsh")
        parser.add_argument("--name", required=True)
        parser.add_argument("--currency", required=True, help="ISO 4217, three letters")
        parser.add_argument("--exponent", type=int, help="decimals of the currency, where not ISO 4217's")
        parser.add_argument("--zone", required=True, help="IANA time zone")
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
        if options["zone"] not in available_timezones():
            raise CommandError(f"--zone: {options['zone']!r} is not an IANA zone. Enter one like {ZoneInfo('UTC')}.")
        if not (len(options["currency"]) == 3 and options["currency"].isalpha() and options["currency"].isupper()):
            raise CommandError(f"--currency: {options['currency']!r} is not an ISO 4217 code: three capital letters.")
        facts = {k: options[k] for k in FACTS}
        try:
            shop, new = open_shop(**facts)
        except ValidationError as error:
            raise CommandError(refused_words(error)) from None
        self.stdout.write(f"{'opened' if new else 'kept'} {shop.name} ({shop.slug})")
