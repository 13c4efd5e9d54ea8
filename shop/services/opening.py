"""Opens the first shop of an installation, with a code that the server prints when it starts."""

import secrets
from datetime import date
from typing import Any

from django.db import transaction
from django.utils.crypto import constant_time_compare, salted_hmac
from django.utils.text import slugify

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Member, OpeningCode, Shop
from shop.rule_presets import PRESETS
from shop.services.people import open_shop, set_member
from shop.services.rules import add_rules

LETTERS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"  # without letters that look like another
GROUPS, GROUP = 3, 4
RESERVED = ("api", "q", "static", "media")  # the first part of other addresses
LONGEST_SLUG = 40


@transaction.atomic
def new_opening_code() -> str | None:
    """Makes the code that opens the first shop, in place of an earlier one; None once there is a shop.

    Only a digest is kept, so that the code can be read nowhere but where the server printed it.
    """
    if Shop.objects.exists():
        OpeningCode.objects.all().delete()
        return None
    groups = ["".join(secrets.choice(LETTERS) for _ in range(GROUP)) for _ in range(GROUPS)]
    code = "-".join(groups)
    OpeningCode.objects.update_or_create(id=1, defaults={"digest": _digest(code)})
    return code


def is_opening_code(typed: str) -> bool:
    """Returns whether the text is the code of the running server, whatever its hyphens, spaces and capitals."""
    row = OpeningCode.objects.first()
    return constant_time_compare(row.digest if row else "", _digest(typed))


@transaction.atomic
def open_workshop(
    *, code: str, facts: dict[str, Any], manager: dict[str, str], preset: str, day: date
) -> tuple[Shop, Member]:
    """Opens the first shop with its first manager and its first price rules, which apply from `day` on.

    Refuses `shop-exists` once there is a shop, also when two people open one at the same time, and a wrong code at
    its field. `facts` are those of `open_shop` without a slug, which is made from the name; `manager` has email, name
    and password.
    """
    row = OpeningCode.objects.select_for_update().first()
    if Shop.objects.exists():
        raise RequestError(409, "shop-exists")
    if not constant_time_compare(row.digest if row else "", _digest(code)):
        raise field_error("/code", "opening_code")
    shop, _ = open_shop(slug=slug_of(facts["name"]), **facts)
    member, _ = set_member(shop=shop, role=Member.Role.MANAGER, **manager)
    add_rules(actor=Actor(shop=shop, member=member), rules=PRESETS[preset], valid_from=day, verb="opened")
    return shop, member


def slug_of(name: str) -> str:
    """The shop in addresses: 'Copper Fell Fitting' is 'copper-fell-fitting'. A name without Latin letters has none."""
    slug = slugify(name).replace("_", "-")[:LONGEST_SLUG].strip("-")
    return f"{slug or 'our'}-workshop" if slug in ("", *RESERVED) else slug


def _digest(code: str) -> str:
    plain = "".join(letter for letter in code.upper() if letter.isalnum())
    return salted_hmac("shop.services.opening", plain, algorithm="sha256").hexdigest()
