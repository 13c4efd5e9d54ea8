"""The quote as an advisor reads it out to a customer who answers by phone or at the counter."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer, Exact


class SpokenConsentOut(Answer, frozen=True):
    """A consent to ask for."""

    code: str
    text: Annotated[str, Meta(description="To read out, in the customer's language.")]
    required: Annotated[bool, Meta(description="Without it the quote cannot be accepted.")]
    without: Annotated[str, Meta(description="The consequence of not ticking it; empty for a required one.")]


class SpokenPriceOut(Answer, frozen=True):
    """A price that can be accepted, with what is read out of it."""

    value: Annotated[str, Meta(description="Names the price in the answer.")]
    words: Annotated[str, Meta(description="The words of one of several prices; empty where there is one.")]
    gross: Annotated[Exact, Meta(description="The total with tax.")]
    ready: Annotated[str, Meta(description="The half day that was read out; empty where there is none.")]
    ready_later: Annotated[str, Meta(description="The same without the consent to begin early.")]
    offer: Annotated[str, Meta(description="Quote, vehicle and total.")]
    contingencies: Annotated[
        list[str], Meta(description="The work charged only if something happens, a sentence each.")
    ]
    dates: Annotated[list[str], Meta(description="The ready date, or the reason for which none can be given.")]
    open: Annotated[bool, Meta(description="It can be accepted.")]
    unfit: Annotated[str | None, Meta(description="The reason for which this price cannot be accepted.")]


class SpokenFormOut(Answer, frozen=True):
    """The sent version as it is read out to the customer before they answer."""

    revision: Annotated[int, Meta(description="The number of the version.")]
    digest: Annotated[str, Meta(description="SHA-256 of the frozen text, in hexadecimal digits.")]
    prices: Annotated[list[SpokenPriceOut], Meta(description="The prices of the version, in its order.")]
    consents: Annotated[list[SpokenConsentOut], Meta(description="The consents to ask for, in their order.")]
    closing: Annotated[list[str], Meta(description="Read out after the consents, and recorded with the answer.")]
