import sys
from typing import Any

from django.core.exceptions import ValidationError
from django.core.management.base import CommandError, CommandParser

from shop.api.problems import problem, refused_words
from shop.errors import RequestError
from shop.management.current import CurrentDatabaseCommand
from shop.models import Member, Shop
from shop.services.people import remove_member, set_member
from shop.services.second_factor import switch_off_by_command


class Command(CurrentDatabaseCommand):
    help = (
        "Gives a person a role in a shop, or with --remove ends the membership and all sign-ins of that person. "
        "With --password-stdin the password is read from standard input."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("email")
        parser.add_argument("--shop", required=True, help="the shop's slug")
        parser.add_argument("--name")
        parser.add_argument("--role", choices=Member.Role.values)
        parser.add_argument("--remove", action="store_true", help="no longer a member; adding again undoes it")
        parser.add_argument("--password-stdin", action="store_true")
        parser.add_argument("--second-factor-off", action="store_true", help="the password alone signs in again")

    def handle(self, *args: Any, **options: Any) -> None:
        shop = Shop.objects.filter(slug=options["shop"]).first()
        if shop is None:
            raise CommandError(f"--shop: there is no shop {options['shop']!r}. Open it with `manage.py shop`.")
        if options["remove"]:
            return self.remove(shop, options["email"])
        if options["second_factor_off"]:
            return self.switch_off(shop, options["email"])
        member = Member.objects.filter(shop=shop, user__email=options["email"].lower(), active=True).first()
        name, role = options["name"], options["role"]
        if member is not None:
            name, role = name or member.user.name, role or member.role
        if not (name and role):
            raise CommandError("--name and --role are needed to add a person. To end a membership write --remove.")
        password = sys.stdin.readline().rstrip("\n") if options["password_stdin"] else None
        try:
            member, new = set_member(
                shop=shop,
                email=options["email"],
                name=name,
                role=role,
                password=password,
            )
        except ValidationError as error:
            raise CommandError(refused_words(error)) from None
        except RequestError as error:
            raise CommandError(problem(error).body()["detail"]) from None
        self.stdout.write(f"{'added' if new else 'updated'} {member.user.name}, {member.role} at {shop.name}")

    def switch_off(self, shop: Shop, email: str) -> None:
        if not switch_off_by_command(shop=shop, email=email):
            raise CommandError(f"{email} is not a member of {shop.name} with a second factor.")
        self.stdout.write(f"switched the second factor of {email} off")

    def remove(self, shop: Shop, email: str) -> None:
        try:
            member = remove_member(shop=shop, email=email)
        except RequestError as error:
            raise CommandError(problem(error).body()["detail"]) from None
        if member is None:
            raise CommandError(f"{email} is not a member of {shop.name}.")
        self.stdout.write(f"removed {member.user.name} from {shop.name}; all sign-ins of that person have ended")
