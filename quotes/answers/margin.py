"""The margin of a quote before tax: beside the terms of outside work, the one answer that shows costs."""

from datetime import date
from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer, Exact
from shop.answers.explained import ExplainedOut, HowStepOut


class BoughtOut(Answer, frozen=True):
    """One thing that is bought for the quote.

    A sent version has it as it was worked out when it was sent. Amounts are of one, in the shop's money, unless the
    field says otherwise.
    """

    title: str
    quantity: Exact
    supplier: str
    currency: Annotated[str, Meta(description="The supplier's, in three letters (ISO 4217).")]
    goods: Annotated[Exact, Meta(description="The supplier's price.")]
    freight: Annotated[Exact, Meta(description="Its share of the freight.")]
    duty: Annotated[Exact, Meta(description="Import duty.")]
    brokerage: Annotated[Exact, Meta(description="Its share of the brokerage.")]
    landed: Annotated[Exact, Meta(description="The sum of goods, freight, duty and brokerage.")]
    sells: Annotated[Exact, Meta(description="The selling price, with the tax where prices include it.")]
    sells_net: Annotated[Exact, Meta(description="The selling price before tax.")]
    cost: Annotated[Exact, Meta(description="Of the whole quantity.")]
    net: Annotated[Exact, Meta(description="The quote's price for the whole quantity, before tax.")]
    profit: Annotated[Exact, Meta(description="Of the whole quantity, before tax.")]
    says: Annotated[list[str], Meta(description="Selling price and profit in words.")]
    rate: Annotated[Exact | None, Meta(description="The exchange rate; null where it is bought in the shop's money.")]
    rate_date: Annotated[date | None, Meta(description="The day of the exchange rate.")]
    rate_age_days: Annotated[
        int | None, Meta(description="Days since then; null where it is bought in the shop's money.")
    ]
    words: Annotated[list[str], Meta(description="The supplier and the exchange rate in words.")]
    rule: Annotated[list[str], Meta(description="The rules of cost and price in plain words.")]
    how: Annotated[list[HowStepOut], Meta(description="The steps from cost to price and profit.")]


class BoughtSumOut(Answer, frozen=True):
    """The sum of everything that is bought, before tax."""

    cost: Exact
    net: Annotated[Exact, Meta(description="Its price on the quote.")]
    profit: Annotated[Exact, Meta(description="The rest of `net` after the cost.")]


class MarginOut(Answer, frozen=True):
    """The margin of the only price, or of the lowest of several."""

    revenue: Annotated[Exact, Meta(description="The quote's price, before tax.")]
    cost: Exact
    profit: Annotated[
        Exact, Meta(description="The rest of the revenue after the cost, of the lines whose cost is known.")
    ]
    rate: Annotated[Exact | None, Meta(description="Profit as a share of the revenue; null while a cost is unknown.")]
    percent: Annotated[str | None, Meta(description="The rate in percent, as one says it.")]
    floor_percent: Annotated[str | None, Meta(description="The floor in percent, as one says it.")]
    prices: Annotated[list[str], Meta(description="The margins of several prices, in words.")]
    floor: Annotated[Exact | None, Meta(description="The lowest rate that the price rules want.")]
    below: Annotated[bool, Meta(description="A price that the customer may choose is below the floor.")]
    words: Annotated[list[str], Meta(description="The fact that is not known, in words.")]
    bought: Annotated[list[BoughtOut], Meta(description="Everything that is bought for the quote.")]
    bought_sum: Annotated[BoughtSumOut | None, Meta(description="Null where nothing is bought.")]
    how: ExplainedOut
