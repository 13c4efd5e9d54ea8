"""Words for the bay and the counter on the events of a job that its quote charges only if they happen."""

from collections.abc import Sequence

from quotes.answers.occurrences import AgreedContingencyOut, BeyondCapOut, OccurrenceOut, OccurrencesOut
from quotes.models import Occurrence
from quotes.queries.occurrences import AgreedContingency, BeyondCap
from shop.answers.base import utc
from shop.words import say


def occurrences_answer(agreed: Sequence[AgreedContingency]) -> OccurrencesOut:
    return OccurrencesOut([_line(contingency) for contingency in agreed])


def _line(agreed: AgreedContingency) -> AgreedContingencyOut:
    content, charge = agreed.content, agreed.charge
    return AgreedContingencyOut(
        line=content["line"],
        event=content["event"],
        title=content["title"],
        hours=content["quantity"] if content["kind"] == "labour" else None,
        cap=content["cap"],
        happened=agreed.happened,
        rest=charge.rest,
        over=charge.over,
        words=happened_words(agreed),
        records=_records(agreed),
    )


def happened_words(agreed: AgreedContingency) -> str:
    """'2 happened, 2 more are agreed'"""
    charge = agreed.charge
    if charge.over:
        return say("occurrence.over", happened=agreed.happened, cap=agreed.content["cap"], n=charge.over)
    if not agreed.happened:
        return say("occurrence.none", n=charge.rest)
    return say("occurrence.some" if charge.rest else "occurrence.all", n=agreed.happened, rest=charge.rest)


def _records(agreed: AgreedContingency) -> list[OccurrenceOut]:
    occurrences: Sequence[Occurrence] = agreed.occurrences
    reversed_ids = {row.reversed_occurrence_id for row in occurrences}
    return [
        OccurrenceOut(
            id=row.pk,
            count=row.count,
            note=row.note,
            recorded_at=utc(row.recorded_at),
            recorded_by=row.recorded_by.user.name,
            reverses=row.reversed_occurrence_id,
            reversed=row.pk in reversed_ids,
            photographs=[link.photograph_id for link in row.photographs.all()],
            shown=[link.photograph_id for link in row.photographs.all() if link.photograph_id in agreed.shown],
        )
        for row in occurrences
    ]


def beyond_answer(beyond: BeyondCap) -> BeyondCapOut:
    line, cap = beyond.line, int(beyond.line.cap or 0)
    words = say("occurrence.over", happened=beyond.happened, cap=cap, n=beyond.happened - cap)
    return BeyondCapOut(beyond.job.pk, str(beyond.job), line.revision.quote_id, line.event, words)
