"""The choices of a revision as rows -> what a customer can take."""

from collections.abc import Collection, Iterator

from quotes.calc.choices import OfferedChoice, OfferedOption
from quotes.models import Choice, Line, Option, Revision


def offered_choices(revision: Revision) -> tuple[OfferedChoice, ...]:
    """Reads the choices in the order of the quote. One query where there are none."""
    choices = list(Choice.objects.filter(shop=revision.shop_id, revision=revision).order_by("position"))
    options: dict[object, list[OfferedOption]] = {choice.pk: [] for choice in choices}
    rows = Option.objects.filter(shop=revision.shop_id, revision=revision).order_by("position") if choices else ()
    for row in rows:
        options[row.choice_id].append(OfferedOption(str(row.pk), row.title, row.preselected))
    return tuple(OfferedChoice(str(row.pk), row.title, row.take, tuple(options[row.pk])) for row in choices)


def taken_lines(revision: Revision, selection: Collection[str]) -> Iterator[Line]:
    """The lines that a sent revision charges, without those of options that are not taken, in their order."""
    rows = Line.objects.filter(shop=revision.shop_id, revision=revision, certain=True).select_related(
        "kit_revision__kit__part", "part", "operation"
    )
    for line in rows.order_by("position"):
        if line.option_id is None or str(line.option_id) in selection:
            yield line
