"""The figures of a draft that a person sets in place of calculated ones, and its discount, each with a reason."""

from decimal import Decimal

from django.db import transaction

from quotes.models import Override, Quote, Revision
from quotes.services.drafts import changed_draft, open_draft
from shop.access import Actor
from shop.calc.quantity import money, plain
from shop.errors import field_error
from shop.words.figures import figure

DISCOUNT = ("discount_percent", "discount_amount", "discount_reason")


@transaction.atomic
def set_override(*, actor: Actor, quote: Quote, key: str, value: Decimal, because: str, seen: int) -> Revision:
    """Replaces a calculated figure by a person's own, with the reason."""
    revision = open_draft(quote=quote, seen=seen)
    override = Override.objects.filter(shop=revision.shop, revision=revision, figure=key).first()
    before = plain(override.own_value) if override else ""
    override = override or Override(shop=revision.shop, revision=revision, figure=key)
    override.own_value, override.reason = value, because
    override.clean_fields_as(own_value="value", reason="because")
    override.save()
    return changed_draft(actor, revision, "figure set", {key: [before, f"{plain(value)}: {override.reason}"]}, key)


@transaction.atomic
def drop_override(*, actor: Actor, quote: Quote, key: str, seen: int) -> Revision:
    """Removes an override. Changes nothing, not even the version, if there is none."""
    revision = open_draft(quote=quote, seen=seen)
    override = Override.objects.filter(shop=revision.shop, revision=revision, figure=key).first()
    if override is None:
        return revision
    before = f"{plain(override.own_value)}: {override.reason}"
    override.delete()
    return changed_draft(actor, revision, "figure worked out again", {key: [before, ""]}, key)


@transaction.atomic
def give_discount(
    *, actor: Actor, quote: Quote, seen: int, percent: Decimal | None, amount: Decimal | None, because: str
) -> Revision:
    """Sets the discount: a percentage or an amount, with its reason.

    Refused if it is more than the lines that it applies to.
    """
    revision = open_draft(quote=quote, seen=seen)
    before = _discount_words(revision)
    revision.discount_percent, revision.discount_amount = percent, amount
    revision.discount_reason = because
    revision.clean_fields_as(discount_percent="percent", discount_amount="amount", discount_reason="because")
    if not revision.discount_reason:  # nothing but invisible characters
        raise field_error("/because", "kept.blank")
    revision.save(update_fields=DISCOUNT)
    changed = changed_draft(actor, revision, "discount given", {"discount": [before, _discount_words(revision)]})
    discount = changed.worked_out.priced.discount
    if discount.too_large:
        raise field_error("/amount", "discount_too_large", base=figure(money(discount.base, revision.shop.exponent)))
    return changed


@transaction.atomic
def remove_discount(*, actor: Actor, quote: Quote, seen: int) -> Revision:
    """Removes the discount. Changes nothing, not even the version, if there is none."""
    revision = open_draft(quote=quote, seen=seen)
    before = _discount_words(revision)
    if not before:
        return revision
    revision.discount_percent, revision.discount_amount, revision.discount_reason = None, None, ""
    revision.save(update_fields=DISCOUNT)
    return changed_draft(actor, revision, "discount removed", {"discount": [before, ""]})


def _discount_words(revision: Revision) -> str:
    """The discount as history stores it: '5 %: second job this year', '250: ...'."""
    if not revision.discount_reason:
        return ""
    percent, amount = revision.discount_percent, revision.discount_amount
    figure = f"{plain(percent)} %" if percent is not None else plain(amount or Decimal(0))
    return f"{figure}: {revision.discount_reason}"
