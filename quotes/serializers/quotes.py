"""Shapes of the quote resource. A sent revision has the same shape as a draft, read from its frozen text."""

from rest_framework import serializers as s

from quotes.serializers.figures import PriceRangeOut, ShownOut, UndecidedOut
from shop.answers.explained import ExplainedOut, HowStepOut
from shop.answers.promise import PromiseOut
from shop.answers.vehicles import VinCheckOut
from shop.api.openapi import listed
from shop.serializers.answer import AnswerField


class ConditionOut(s.Serializer):
    code = s.CharField()
    factor = s.CharField()


class TaxClassOut(s.Serializer):
    """`words` names the class with its taxes: "labour: Value added tax 20 %"."""

    code = s.CharField()
    words = s.CharField()


class NewerRulesOut(s.Serializer):
    """Price rules in force that a draft was not begun with; `declined` where this draft keeps its own."""

    number = s.IntegerField()
    valid_from = s.DateField()
    declined = s.BooleanField()


class ComparedFigureOut(s.Serializer):
    """A figure in words with the rules of the draft and with the newer ones; None where there is none."""

    code = s.ChoiceField(["hours", "ready", "total", "margin"])
    title = s.CharField()
    now = s.CharField(allow_null=True)
    then = s.CharField(allow_null=True)
    moved = s.BooleanField()


class ComparedLineOut(s.Serializer):
    title = s.CharField()
    now = s.CharField(allow_null=True)
    then = s.CharField(allow_null=True)


class RulesComparedOut(s.Serializer):
    """The draft priced by its own rules and by the newer ones. `stops` says why the newer ones cannot price it."""

    number = s.IntegerField()
    valid_from = s.DateField()
    words = s.CharField()
    stops = s.CharField(allow_null=True)
    figures = ComparedFigureOut(many=True)
    lines = ComparedLineOut(many=True)


class QuoteRulesOut(s.Serializer):
    number = s.IntegerField()
    valid_from = s.DateField()
    prices_include_tax = s.BooleanField()
    validity_days = s.IntegerField()
    conditions = ConditionOut(many=True)
    tax_classes = TaxClassOut(many=True)
    newer = NewerRulesOut(allow_null=True)


class QuoteCustomerOut(s.Serializer):
    id = s.UUIDField()
    name = s.CharField()
    phone = s.CharField()
    email = s.CharField()


class QuoteVehicleOut(s.Serializer):
    id = s.UUIDField()
    title = s.CharField()
    vin_tail = s.CharField()
    vin_check = AnswerField(VinCheckOut, allow_null=True)
    plate = s.CharField()
    attributes = s.DictField(child=s.CharField())
    capacities = s.DictField(child=s.CharField())
    version = s.IntegerField()


class LinkOut(s.Serializer):
    id = s.UUIDField()
    recipient = s.CharField()
    made_at = s.DateTimeField()
    expires_at = s.DateTimeField()
    revoked_at = s.DateTimeField(allow_null=True)


class NewLinkOut(s.Serializer):
    id = s.UUIDField()
    recipient = s.CharField()
    expires_at = s.DateTimeField()
    url = s.CharField(allow_null=True)


class AnswerOut(s.Serializer):
    """`consents` that were given; `waits`: after which day work starts, without the consent to begin earlier.

    `price` says which of several prices was accepted.
    """

    answer = s.CharField()
    name = s.CharField()
    at = s.DateTimeField()
    consents = s.ListField(child=s.CharField())
    waits = s.CharField(allow_null=True)
    price = s.CharField(allow_null=True)


class QuoteJobOut(s.Serializer):
    id = s.UUIDField()
    number = s.CharField()


class IssueOutOut(s.Serializer):
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
    links = LinkOut(many=True)
    answer = AnswerOut(allow_null=True)
    job = QuoteJobOut(allow_null=True)
    pull_list = s.UUIDField(allow_null=True)


class SentOut(s.Serializer):
    quote = QuoteOut()
    link = NewLinkOut()


class QuoteRowOut(s.Serializer):
    """`gross` of a draft is the total of its last change.

    `gross_high` is the highest of several prices until one is accepted; `gross` is then the lowest.
    """

    id = s.UUIDField()
    number = s.CharField(allow_null=True)
    note = s.CharField()
    phone = s.CharField()
    state = s.CharField()
    issue = s.IntegerField()
    customer = s.CharField(allow_null=True)
    vehicle = s.CharField(allow_null=True)
    kits = s.ListField(child=s.CharField())
    gross = s.CharField(allow_null=True)
    gross_high = s.CharField(allow_null=True)
    changed_at = s.DateTimeField()
    sent_at = s.DateTimeField(allow_null=True)
    valid_until = s.DateTimeField(allow_null=True)


class CounterOut(s.Serializer):
    answers = QuoteRowOut(many=True)
    lapsing = QuoteRowOut(many=True)
    laid_aside = QuoteRowOut(many=True)


class BoughtOut(s.Serializer):
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


class BoughtSumOut(s.Serializer):
    """Of everything that is bought, before tax."""

    cost = s.CharField()
    net = s.CharField()
    profit = s.CharField()


class MarginOut(s.Serializer):
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


class HowOut(s.Serializer):
    key = s.CharField()
    title = s.CharField()
    rule = s.ListField(child=s.CharField())
    steps = s.ListField(child=AnswerField(HowStepOut))
    result = s.CharField()


class FoundVehicleOut(s.Serializer):
    id = s.UUIDField()
    title = s.CharField()
    plate = s.CharField()


class FoundOut(s.Serializer):
    kind = s.CharField()
    id = s.UUIDField()
    title = s.CharField()
    detail = s.CharField()
    state = s.CharField(allow_null=True)
    amount = s.CharField(allow_null=True)
    amount_high = s.CharField(allow_null=True)
    customer = s.UUIDField(allow_null=True)
    vehicles = FoundVehicleOut(many=True)
    why = s.CharField()


QuoteRowListOut = listed(QuoteRowOut)
FoundListOut = listed(FoundOut)
