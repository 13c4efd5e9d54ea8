"""Shapes of the requests about a quote."""

from decimal import Decimal
from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

from kitting.models.kits import NeedCharge
from quotes.models import Line
from quotes.models.answers import AnswerWay, DecisionAnswer
from quotes.models.follow_ups import CallOutcome
from quotes.models.lines import PartCondition
from shop.calc import mailing
from shop.serializers.figure import Figure


class QuoteIn(s.Serializer[Any]):
    kits = s.ListField(child=s.UUIDField(), max_length=26, default=list, help_text="The ids of the kits.")
    parts = s.ListField(
        child=s.UUIDField(), max_length=26, default=list, help_text="The ids of loose parts, one of each."
    )
    customer = s.UUIDField(allow_null=True, default=None, help_text="The id of the customer.")
    vehicle = s.UUIDField(allow_null=True, default=None, help_text="The id of the vehicle.")


class QuoteChange(s.Serializer[Any]):
    """`rules`: the number of the price rules in force, or of those that they replaced on this draft.

    `rules_declined`: the number of newer rules that this draft need not offer again.
    """

    customer = s.UUIDField(allow_null=True, required=False, help_text="The id of the customer.")
    vehicle = s.UUIDField(allow_null=True, required=False, help_text="The id of the vehicle.")
    note = s.CharField(
        max_length=200, allow_blank=True, required=False, help_text="The workshop's own; no customer reads it."
    )
    customer_note = s.CharField(
        max_length=400, allow_blank=True, required=False, help_text="The customer reads it on page and paper."
    )
    condition = s.CharField(max_length=20, required=False, help_text="The code of the condition of the fasteners.")
    here = s.BooleanField(required=False)
    here_from = s.DateField(allow_null=True, required=False)
    rules = s.IntegerField(
        min_value=1,
        required=False,
        help_text="The number of the price rules in force, or of those that they replaced on this draft.",
    )
    rules_declined = s.IntegerField(
        min_value=1,
        allow_null=True,
        required=False,
        help_text="The number of newer price rules that this draft need not offer again.",
    )


SUPPLIED = "The customer brings it, so it has no price: a kit, a loose part or a line written by hand."
FITTED_BY = "The code of the operation that fits a part of the customer's; empty for none."
CORE = "a deposit that is paid back when the old part comes."


class LineIn(s.Serializer[Any]):
    kind = s.ChoiceField(
        [Line.Kind.KIT, Line.Kind.PART, Line.Kind.LABOUR, Line.Kind.TEXT],
        help_text="A kit, a loose part, labour or a line written by hand.",
    )
    kit = s.UUIDField(required=False)
    part = s.UUIDField(required=False)
    operation = s.UUIDField(required=False, help_text="Of labour: the id of an operation of the list.")
    skill = s.CharField(max_length=20, required=False, help_text="Of labour without an operation: its skill.")
    hours = Figure(
        decimals=1, required=False, help_text="Of labour; an operation has its own hours where they are left out."
    )
    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, default=Decimal(1))
    unit_price = Figure(decimals=4, required=False)
    tax_class = s.CharField(max_length=20, required=False)
    core = s.BooleanField(required=False, help_text="Of a line written by hand: " + CORE)
    supplied = s.BooleanField(required=False, help_text=SUPPLIED)
    fitted_by = s.CharField(max_length=40, required=False, allow_blank=True, help_text=FITTED_BY)


class LineChange(s.Serializer[Any]):
    """A kit takes only `fitted_before`, `supplied`, `returnable` and `option`, outside work only the last two."""

    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, required=False)
    unit_price = Figure(
        decimals=4, required=False, allow_null=True, help_text="Null for a part goes back to the price worked out."
    )
    because = s.CharField(
        max_length=200, required=False, help_text="Of a part with a price of its own: the reason. Only we read it."
    )
    tax_class = s.CharField(max_length=20, required=False)
    core = s.BooleanField(required=False, help_text="Of a line written by hand: " + CORE)
    supplied = s.BooleanField(required=False, help_text=SUPPLIED)
    fitted_by = s.CharField(max_length=40, required=False, allow_blank=True, help_text=FITTED_BY)
    fitted_before = s.BooleanField(
        required=False, help_text="Of a kit: the workshop fitted it before it was quoted here."
    )
    returnable = s.BooleanField(
        required=False, help_text="Of a kit, a part or outside work: false if its supplier does not take it back."
    )
    part_condition = s.ChoiceField(PartCondition.values, required=False, help_text="Of a part: how it is sold.")
    original = s.BooleanField(required=False, help_text="Of a part: it is the vehicle manufacturer's.")
    option = s.UUIDField(
        allow_null=True, required=False, help_text="The id of the option that it is part of; null for none."
    )


class VersionIn(s.Serializer[Any]):
    version = s.IntegerField(min_value=1, help_text="That of the draft that was seen.")


class PartListIn(s.Serializer[Any]):
    text = s.CharField(max_length=20_000, help_text="Part numbers with quantities, a line each, as they were copied.")


class CallIn(s.Serializer[Any]):
    outcome = s.ChoiceField(CallOutcome.choices, help_text="The customer's answer.")


class CopyIn(s.Serializer[Any]):
    customer = s.UUIDField(allow_null=True, default=None, help_text="The id of the customer of the copy.")
    vehicle = s.UUIDField(allow_null=True, default=None, help_text="The id of the vehicle of the copy.")


class ChargeIn(s.Serializer[Any]):
    charge = s.ChoiceField(
        NeedCharge.choices,
        allow_null=True,
        help_text="Whole packs, as used, or within the shop supplies; null goes back to the price rules and the kits.",
    )


class OverrideIn(s.Serializer[Any]):
    value = Figure(decimals=4, help_text="Hours for labour, else an amount.")
    because = s.CharField(max_length=200, help_text="The reason in the person's own words.")


class DiscountIn(s.Serializer[Any]):
    """Either `percent` or `amount`."""

    percent = Figure(decimals=2, allow_null=True, default=None, help_text="Either this or an amount.")
    amount = Figure(decimals=4, allow_null=True, default=None, help_text="Either this or a percentage.")
    because = s.CharField(max_length=200, help_text="The reason that the customer reads.")


@extend_schema_field({"type": "string", "format": "decimal", "maxLength": 20})
class AmountSeen(s.CharField):
    """An amount as it stood on the screen: it is only compared."""


class SendIn(s.Serializer[Any]):
    """`gross` is the total that was seen: prices may have moved where the draft has not.

    `below_floor` says that the quote is sent although its margin is below the floor of the price rules.
    """

    version = s.IntegerField(min_value=1, help_text="That of the draft that was seen.")
    gross = AmountSeen(
        max_length=20,
        required=False,
        help_text="The total that was seen: prices may have moved where the draft has not.",
    )
    recipient = s.CharField(max_length=120)
    below_floor = s.BooleanField(
        default=False, help_text="Send it although its margin is below the floor of the price rules."
    )


class RecipientIn(s.Serializer[Any]):
    recipient = s.CharField(max_length=120)


class EmailAddress(s.EmailField):
    """An address without invisible characters, which a domain could hide."""

    def to_internal_value(self, data: Any) -> str:
        address: str = super().to_internal_value(data)
        if not all(character.isprintable() for character in address):
            self.fail("invalid")
        return address


class MailIn(s.Serializer[Any]):
    to = EmailAddress(max_length=254, help_text="The e-mail address that it is sent to.")
    recipient = s.CharField(max_length=120)
    digest = s.CharField(max_length=64, help_text="That of the version that was seen.")


class MailDecisionIn(s.Serializer[Any]):
    decision = s.ChoiceField(
        [mailing.AGAIN, mailing.ARRIVED, mailing.CANCEL],
        help_text="Send it again, record that it arrived, or do not send it.",
    )


class WithdrawIn(s.Serializer[Any]):
    revision = s.IntegerField(min_value=1, help_text="The number of the version that was seen.")
    digest = s.CharField(max_length=64, help_text="That of the version that was seen.")


class SpokenIn(s.Serializer[Any]):
    """An answer that the customer gave by phone or at the counter, to the version that was read out."""

    revision = s.IntegerField(min_value=1, help_text="The number of the version that was read out.")
    digest = s.CharField(max_length=64, help_text="That of the version that was read out.")
    answer = s.ChoiceField(DecisionAnswer.choices, help_text="Whether the customer accepts.")
    way = s.ChoiceField([AnswerWay.PHONE, AnswerWay.COUNTER], help_text="By phone or at the counter.")
    name = s.CharField(max_length=120, help_text="The full name of the person who answered.")
    phone = s.CharField(
        max_length=40, allow_blank=True, default="", help_text="The number called; required of an answer by phone."
    )
    said_at = s.DateTimeField(
        allow_null=True, default=None, help_text="The time at which it was said; now where it is not given."
    )
    price = s.CharField(
        max_length=2, allow_blank=True, default="", help_text="The one of several prices that is accepted."
    )
    ready = s.CharField(max_length=30, allow_blank=True, default="", help_text="The half day that was read out.")
    ready_later = s.CharField(
        max_length=30, allow_blank=True, default="", help_text="The half day without the consent to begin early."
    )
    consents = s.ListField(
        child=s.CharField(max_length=60), max_length=60, default=list, help_text="The codes of the consents given."
    )
    read_out = s.BooleanField(default=False, help_text="The words were read out; required to accept.")
    reason = s.CharField(max_length=300, allow_blank=True, default="", help_text="The reason for declining it.")


class ReplyIn(s.Serializer[Any]):
    reply = s.CharField(max_length=1000, help_text="Plain text that the customer reads on the page of the link.")
