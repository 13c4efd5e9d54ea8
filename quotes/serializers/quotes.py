"""Shapes of the quote resource. A sent revision has the same shape as a draft, read from its frozen text."""

from decimal import Decimal

from rest_framework import serializers as s

from quotes.models import Line
from shop.openapi import listed
from shop.serializers.customers import VinCheckOut
from shop.serializers.figure import Figure
from shop.serializers.how import ExplainedOut, HowStepOut
from shop.serializers.promise import PromiseOut


class QuoteIn(s.Serializer):
    kits = s.ListField(child=s.UUIDField(), max_length=26, default=list)
    customer = s.UUIDField(allow_null=True, default=None)
    vehicle = s.UUIDField(allow_null=True, default=None)


class QuoteChange(s.Serializer):
    customer = s.UUIDField(allow_null=True, required=False)
    vehicle = s.UUIDField(allow_null=True, required=False)
    note = s.CharField(max_length=200, allow_blank=True, required=False)
    condition = s.CharField(max_length=20, required=False)
    here = s.BooleanField(required=False)
    here_from = s.DateField(allow_null=True, required=False)


class LineIn(s.Serializer):
    kind = s.ChoiceField([Line.Kind.KIT, Line.Kind.PART, Line.Kind.TEXT])
    kit = s.UUIDField(required=False)
    part = s.UUIDField(required=False)
    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, default=Decimal(1))
    unit_price = Figure(decimals=4, required=False)
    tax_class = s.CharField(max_length=20, required=False)


class LineChange(s.Serializer):
    """Of a kit only `fitted_before`: the workshop has fitted it before it was quoted here."""

    title = s.CharField(max_length=200, required=False)
    quantity = Figure(decimals=4, required=False)
    unit_price = Figure(decimals=4, required=False)
    tax_class = s.CharField(max_length=20, required=False)
    fitted_before = s.BooleanField(required=False)


class OverrideIn(s.Serializer):
    value = Figure(decimals=4)
    because = s.CharField(max_length=200)


class DiscountIn(s.Serializer):
    """Either `percent` or `amount`."""

    percent = Figure(decimals=2, allow_null=True, default=None)
    amount = Figure(decimals=4, allow_null=True, default=None)
    because = s.CharField(max_length=200)


class SendIn(s.Serializer):
    """`gross` is the total that was seen: prices may have moved where the draft has not.

    `below_floor` says that the quote is sent although its margin is below the floor of the price rules.
    """

    version = s.IntegerField(min_value=1)
    gross = s.CharField(max_length=20, required=False)
    recipient = s.CharField(max_length=120)
    below_floor = s.BooleanField(default=False)


class RecipientIn(s.Serializer):
    recipient = s.CharField(max_length=120)


class WithdrawIn(s.Serializer):
    issue = s.IntegerField(min_value=1)
    digest = s.CharField(max_length=64)


class Nothing(s.Serializer):
    pass


class OverrideOut(s.Serializer):
    value = s.CharField()
    because = s.CharField()


class QuotedKitOut(s.Serializer):
    """`parts`: lines of its parts list that apply to the vehicle, of all that are `listed`; an older sent version
    has only the first.
    """

    line = s.CharField()
    letter = s.CharField()
    kit = s.CharField()
    code = s.CharField()
    title = s.CharField()
    issue = s.IntegerField()
    parts = s.IntegerField()
    listed = s.IntegerField(required=False)
    cartons = s.IntegerField()
    first_fit = s.CharField(allow_null=True, required=False)
    fitted_before = s.BooleanField(required=False)
    price = s.CharField()
    why = s.ListField(child=s.CharField())
    alone_hours = s.CharField()
    saves_hours = s.CharField()
    saves_amount = s.CharField()
    key = s.CharField()
    override = OverrideOut(allow_null=True)


class QuotedOperationOut(s.Serializer):
    """`corroded`: by how many percent corroded fasteners raise the hours. An older sent version lacks it."""

    key = s.CharField()
    code = s.CharField()
    title = s.CharField()
    skill = s.CharField()
    kits = s.ListField(child=s.CharField())
    hours = s.CharField()
    rate = s.CharField()
    price = s.CharField()
    why = s.ListField(child=s.CharField())
    override = OverrideOut(allow_null=True)
    corroded = s.CharField(allow_null=True, required=False)


class QuotedStageOut(s.Serializer):
    """An install stage with the sum of its operations, which `keys` name in the order of work."""

    title = s.CharField()
    hours = s.CharField()
    price = s.CharField()
    keys = s.ListField(child=s.CharField())


class QuotedLabourOut(s.Serializer):
    """An older sent version lacks `stages`."""

    hours = s.CharField()
    apart_hours = s.CharField()
    amount = s.CharField()
    why = s.ListField(child=s.CharField())
    stages = QuotedStageOut(many=True, required=False)
    operations = QuotedOperationOut(many=True)


class QuotedPackOut(s.Serializer):
    part = s.CharField()
    number = s.CharField()
    title = s.CharField()
    size = s.CharField()
    count = s.IntegerField()


class QuotedNeedOut(s.Serializer):
    key = s.CharField()
    title = s.CharField()
    quantity = s.CharField()
    unit = s.CharField()
    packs = QuotedPackOut(many=True)
    kits = s.ListField(child=s.CharField())
    operation = s.CharField()
    charge = s.CharField()
    price = s.CharField()
    why = s.ListField(child=s.CharField())
    override = OverrideOut(allow_null=True)


class QuotedExtraOut(s.Serializer):
    line = s.CharField()
    part = s.CharField(allow_null=True)
    title = s.CharField()
    quantity = s.CharField()
    unit_price = s.CharField()
    price = s.CharField()
    tax_class = s.CharField()


class QuotedOutsideOut(s.Serializer):
    """Work of another firm. `name` holds the firm; `turnaround` is a sentence, `days` are open days."""

    line = s.CharField()
    key = s.CharField()
    title = s.CharField()
    firm = s.CharField()
    name = s.CharField()
    price = s.CharField()
    tax_class = s.CharField()
    days = s.IntegerField(allow_null=True)
    starts_after = s.CharField(allow_blank=True)
    needed_by = s.CharField(allow_blank=True)
    turnaround = s.CharField()
    they_need = s.CharField(allow_blank=True)
    warranty = s.CharField(allow_blank=True)
    why = s.ListField(child=s.CharField())
    override = OverrideOut(allow_null=True)


class QuotedFeeOut(s.Serializer):
    key = s.CharField()
    title = s.CharField()
    price = s.CharField()
    why = s.ListField(child=s.CharField())


class DiscountOut(s.Serializer):
    """`percent` or `amount` as it was agreed; `price` is what it takes from the total, with its minus."""

    key = s.CharField()
    title = s.CharField()
    because = s.CharField()
    percent = s.CharField(allow_null=True)
    amount = s.CharField(allow_null=True)
    why = s.ListField(child=s.CharField())
    price = s.CharField()


class QuotedTaxOut(s.Serializer):
    code = s.CharField()
    title = s.CharField()
    rate = s.CharField()
    amount = s.CharField()


class QuoteTotalsOut(s.Serializer):
    kits = s.CharField()
    labour = s.CharField()
    needs = s.CharField()
    outside = s.CharField()
    extras = s.CharField()
    fees = s.CharField()
    discount = s.CharField()
    net = s.CharField()
    taxes = QuotedTaxOut(many=True)
    tax = s.CharField()
    gross = s.CharField()
    prices_include_tax = s.BooleanField()


class DecideOut(s.Serializer):
    attribute = s.CharField()
    values = s.ListField(child=s.CharField())
    words = s.CharField()


class NoticeOut(s.Serializer):
    code = s.CharField()
    about = s.CharField(allow_blank=True)
    words = s.CharField()


class ShownOut(s.Serializer):
    kits = QuotedKitOut(many=True)
    labour = QuotedLabourOut()
    needs = QuotedNeedOut(many=True)
    outside = QuotedOutsideOut(many=True)
    extras = QuotedExtraOut(many=True)
    fees = QuotedFeeOut(many=True)
    discount = DiscountOut(allow_null=True)
    totals = QuoteTotalsOut()
    decide = DecideOut(many=True)
    notices = NoticeOut(many=True)


class StatedOut(s.Serializer):
    """A value of None is any that is not named."""

    attribute = s.CharField()
    value = s.CharField(allow_null=True)


class PossiblePriceOut(s.Serializer):
    """What the quote comes to with these values; `unfit` says which kits they rule out, `ready` the half day."""

    stated = StatedOut(many=True)
    words = s.CharField()
    hours = s.CharField()
    gross = s.CharField()
    unfit = s.CharField(allow_null=True)
    nameable = s.BooleanField()
    ready = s.CharField(allow_null=True)


class UndecidedAttributeOut(s.Serializer):
    attribute = s.CharField()
    title = s.CharField()
    values = s.ListField(child=s.CharField())


class UndecidedOut(s.Serializer):
    """What is not recorded of the vehicle and changes price or hours, with a price for each combination.

    `hours` are those of the least and the most.
    """

    title = s.CharField()
    words = s.CharField()
    attributes = UndecidedAttributeOut(many=True)
    hours = s.CharField()
    prices = PossiblePriceOut(many=True)


class PriceRangeOut(s.Serializer):
    """What one says on the phone, in whole numbers."""

    low = s.CharField()
    high = s.CharField()
    hours_low = s.CharField()
    hours_high = s.CharField()
    words = s.CharField()


class KitPriceRangeOut(s.Serializer):
    """None where the kit has no price yet."""

    range = PriceRangeOut(allow_null=True)


class ConditionOut(s.Serializer):
    code = s.CharField()
    factor = s.CharField()


class TaxClassOut(s.Serializer):
    """`words` names the class with its taxes: "labour: Value added tax 20 %"."""

    code = s.CharField()
    words = s.CharField()


class QuoteRulesOut(s.Serializer):
    number = s.IntegerField()
    valid_from = s.DateField()
    prices_include_tax = s.BooleanField()
    validity_days = s.IntegerField()
    conditions = ConditionOut(many=True)
    tax_classes = TaxClassOut(many=True)


class QuoteCustomerOut(s.Serializer):
    id = s.UUIDField()
    name = s.CharField()
    phone = s.CharField()
    email = s.CharField()


class QuoteVehicleOut(s.Serializer):
    id = s.UUIDField()
    title = s.CharField()
    vin_tail = s.CharField()
    vin_check = VinCheckOut(allow_null=True)
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
    promise = PromiseOut(allow_null=True)
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
    """`gross` of a draft is the total of its last change."""

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
    how = HowStepOut(many=True)


class BoughtSumOut(s.Serializer):
    """Of everything that is bought, before tax."""

    cost = s.CharField()
    net = s.CharField()
    profit = s.CharField()


class MarginOut(s.Serializer):
    revenue = s.CharField()
    cost = s.CharField()
    profit = s.CharField()
    rate = s.CharField(allow_null=True)
    floor = s.CharField(allow_null=True)
    below = s.BooleanField()
    words = s.ListField(child=s.CharField())
    bought = BoughtOut(many=True)
    bought_sum = BoughtSumOut(allow_null=True)
    how = ExplainedOut()


class HowOut(ExplainedOut):
    key = s.CharField()


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
    customer = s.UUIDField(allow_null=True)
    vehicles = FoundVehicleOut(many=True)
    why = s.CharField()


QuoteRowListOut = listed(QuoteRowOut)
FoundListOut = listed(FoundOut)
