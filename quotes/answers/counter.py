"""The lists of the counter."""

from typing import Annotated

from msgspec import Meta

from quotes.answers.follow_ups import UnansweredOut
from quotes.answers.mails import MailTroubleOut
from quotes.answers.occurrences import BeyondCapOut
from quotes.answers.questions import AskedOut
from quotes.answers.rows import QuoteRowOut
from shop.answers.base import Answer


class CounterOut(Answer, frozen=True):
    """The counter's lists, at most twenty quotes each."""

    asked: Annotated[list[AskedOut], Meta(description="Questions without a reply, the oldest first.")]
    answers: Annotated[list[QuoteRowOut], Meta(description="Accepted or declined by the customer.")]
    follow_up: Annotated[
        list[UnansweredOut],
        Meta(description="Sent and silent, about to expire or expired within a week; those just rung come last."),
    ]
    laid_aside: Annotated[list[QuoteRowOut], Meta(description="Drafts.")]
    beyond: Annotated[
        list[BeyondCapOut],
        Meta(description="The events that happened more often on a job than was agreed, within two weeks."),
    ]
    mails: Annotated[list[MailTroubleOut], Meta(description="E-mails that a person has to decide about.")]
