"""Shapes of the quote resource. A sent revision has the same shape as a draft, read from its frozen text."""

from typing import Any

from rest_framework import serializers as s

from quotes.answers.links import LinkOut, NewLinkOut
from quotes.serializers.figures import PriceRangeOut, ShownOut, UndecidedOut
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.answers.promise import PromiseOut
from shop.answers.vehicles import VinCheckOut
from shop.serializers.answer import AnswerField


class ConditionOut(s.Serializer[Any]):
    code = s.CharField()
    factor = s.CharField()


class TaxClassOut(s.Serializer[Any]):
    """`words` names the class with its taxes: "labour: Value added tax 20 %"."""

    code = s.CharField()
    words = s.CharField()


class NewerRulesOut(s.Serializer[Any]):
    """Price rules in force that a draft was not begun with; `declined` where this draft keeps its own."""

    number = s.IntegerField()
    valid_from = s.DateField()
    declined = s.BooleanField()


class QuoteRulesOut(s.Serializer[Any]):
    number = s.IntegerField()
    valid_from = s.DateField()
    prices_include_tax = s.BooleanField()
    validity_days = s.IntegerField()
    conditions = ConditionOut(many=True)
    tax_classes = TaxClassOut(many=True)
    newer = NewerRulesOut(allow_null=True)


class QuoteCustomerOut(s.Serializer[Any]):
    id = s.UUIDField()
    name = s.CharField()
    phone = s.CharField()
    email = s.CharField()


class QuoteVehicleOut(s.Serializer[Any]):
    id = s.UUIDField()
    title = s.CharField()
    vin_tail = s.CharField()
    vin_check = AnswerField(VinCheckOut, allow_null=True)
    plate = s.CharField()
    attributes = s.DictField(child=s.CharField())
    capacities = s.DictField(child=s.CharField())
    version = s.IntegerField()


class AnswerOut(s.Serializer[Any]):
    """`consents` that were given; `waits`: after which day work starts, without the consent to begin earlier.

    `price` says which of several prices was accepted.
    """

    answer = s.CharField()
    name = s.CharField()
    at = s.DateTimeField()
    consents = s.ListField(child=s.CharField())
    waits = s.CharField(allow_null=True)
    price = s.CharField(allow_null=True)


class QuoteJobOut(s.Serializer[Any]):
    id = s.UUIDField()
    number = s.CharField()


class IssueOutOut(s.Serializer[Any]):
    issue = s.IntegerField()
    digest = s.CharField()


class QuoteOut(ShownOut):
    out = IssueOutOut(allow_null=True)
    id = s.UUIDField()
    number = s.CharField(allow_null=True)
    note = s.CharField()
    state = s.CharField()
    issue = s.IntegerField()
    version = s.IntegerField()
    editable = s.BooleanField()
    digest = s.CharField(allow_null=True)
    mark = s.CharField(allow_null=True)
    changed_at = s.DateTimeField()
    changed_by = s.CharField()
    sent_at = s.DateTimeField(allow_null=True)
    valid_until = s.DateTimeField(allow_null=True)
    currency = s.CharField()
    exponent = s.IntegerField()
    customer = QuoteCustomerOut(allow_null=True)
    vehicle = QuoteVehicleOut(allow_null=True)
    condition = s.CharField()
    here = s.BooleanField()
    here_from = s.DateField(allow_null=True)
    promise = AnswerField(PromiseOut, allow_null=True)
    no_promise = s.CharField(allow_null=True)
    rules = QuoteRulesOut()
    stops = s.ListField(child=s.CharField())
    undecided = UndecidedOut(allow_null=True)
    range = PriceRangeOut(allow_null=True)
    links = s.ListField(child=AnswerField(LinkOut))
    answer = AnswerOut(allow_null=True)
    job = QuoteJobOut(allow_null=True)
    pull_list = s.UUIDField(allow_null=True)


class SentOut(s.Serializer[Any]):
    quote = QuoteOut()
    link = AnswerField(NewLinkOut)


class BoughtOut(s.Serializer[Any]):
    """Amounts of one, in the shop's money; of a sent version as they were worked out when it was sent.

    `sells` holds the tax where prices do; `sells_net` is before tax. `cost`, `net` (what the quote charges, before
    tax) and `profit` are of all `quantity`.
    """

    title = s.CharField()
    quantity = s.CharField()
    supplier = s.CharField()
    currency = s.CharField()
    goods = s.CharField()
    freight = s.CharField()
    duty = s.CharField()
    brokerage = s.CharField()
    landed = s.CharField()
    sells = s.CharField()
    sells_net = s.CharField()
    cost = s.CharField()
    net = s.CharField()
    profit = s.CharField()
    says = s.ListField(child=s.CharField())
    rate = s.CharField(allow_null=True)
    rate_date = s.DateField(allow_null=True)
    rate_age_days = s.IntegerField(allow_null=True)
    words = s.ListField(child=s.CharField())
    rule = s.ListField(child=s.CharField())
    how = s.ListField(child=AnswerField(HowStepOut))


class BoughtSumOut(s.Serializer[Any]):
    """Of everything that is bought, before tax."""

    cost = s.CharField()
    net = s.CharField()
    profit = s.CharField()


class MarginOut(s.Serializer[Any]):
    """The margin of the one price, or of the lowest of several, whose margins are `prices`, in words.

    `percent` and `floor_percent` are as one says them.
    """

    revenue = s.CharField()
    cost = s.CharField()
    profit = s.CharField()
    rate = s.CharField(allow_null=True)
    percent = s.CharField(allow_null=True)
    floor_percent = s.CharField(allow_null=True)
    prices = s.ListField(child=s.CharField())
    floor = s.CharField(allow_null=True)
    below = s.BooleanField()
    words = s.ListField(child=s.CharField())
    bought = BoughtOut(many=True)
    bought_sum = BoughtSumOut(allow_null=True)
    how = AnswerField(ExplainedOut)


class HowOut(s.Serializer[Any]):
    key = s.CharField()
    title = s.CharField()
    rule = s.ListField(child=s.CharField())
    steps = s.ListField(child=AnswerField(HowStepOut))
    result = s.CharField()
