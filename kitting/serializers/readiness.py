from typing import Any

from drf_spectacular.utils import extend_schema_field
from rest_framework import serializers as s

from kitting.calc.readiness import Verdict
from kitting.serializers.pull_lists import JobOfListOut, ProposedOrderOut
from shop.serializers.how import ExplainedOut
from shop.serializers.promise import PromiseOut

MOST_LINES = 5000
VERDICTS = Verdict.__args__  # type: ignore[attr-defined]


@extend_schema_field({"type": "string", "pattern": "^([01]?[0-9]|2[0-3]):[0-5]?[0-9]$"})
class TimeOfDay(s.TimeField):
    """Hours and minutes of the shop's clock, as in 10:30: no seconds and no zone."""

    def __init__(self, **kw: Any) -> None:
        super().__init__(input_formats=["%H:%M"], **kw)


class StepNameOut(s.Serializer):
    position = s.IntegerField()
    code = s.CharField()
    title = s.CharField()


class HoldOut(StepNameOut):
    """`words` stand on the bar before the step; `waits_at` is the position of the first step that it is for."""

    words = s.CharField()
    waits_at = s.IntegerField(allow_null=True)


class ListOfJobOut(s.Serializer):
    id = s.UUIDField()
    state = s.ChoiceField(("open", "closed"))
    seq = s.IntegerField()


class StepPartOut(s.Serializer):
    """A part or a pack that the step takes: `here` of `need` pieces. `amount`: of each, or of all packs together.

    `states`: what the counts say of its lines, where pieces are not here; not `counted`, nobody has looked.
    `minor`: the step does not wait for it (a leaflet, what the shop supplies cover).
    `kit`: in whose box it lies, where the job has several.
    """

    line = s.UUIDField()
    title = s.CharField()
    number = s.CharField()
    need = s.IntegerField()
    here = s.IntegerField()
    counted = s.BooleanField()
    states = s.ListField(child=s.CharField())
    minor = s.BooleanField()
    amount = s.CharField(allow_null=True)
    places = s.ListField(child=s.CharField())
    kit = s.CharField(allow_null=True)


class StepReadinessOut(StepNameOut):
    """`clear`: nothing is missing; `comes`: what is missing comes in time; `after`: only steps before it wait.

    `parts` are what to take in hand for it, also where all is here; `hazards` what their packs warn of.
    """

    hours = s.CharField()
    no_return = s.BooleanField()
    mobile_again = s.BooleanField()
    state = s.ChoiceField(("clear", "comes", "waits", "after"))
    words = s.CharField()
    missing = s.ListField(child=s.CharField())
    parts = StepPartOut(many=True)
    hazards = s.ListField(child=s.CharField())


class MissingLineOut(s.Serializer):
    """In whole pieces; `because` are the words of the line's states."""

    line = s.UUIDField()
    number = s.CharField()
    title = s.CharField()
    unit = s.CharField()
    have = s.IntegerField()
    need = s.IntegerField()
    missing = s.IntegerField()
    because = s.ListField(child=s.CharField())


class MissingOut(s.Serializer):
    """A line, or the lines nobody has counted of a kit, a carton, a bag or the shelf.

    `step` is the first that stops without it; null for spares and papers. `have` and `need` are of a single line.
    `needed`: of how many of its lines some step waits for pieces.
    `typed`: a person said when it comes. `uncounted`: it may be here, and only has to be counted.
    """

    key = s.CharField()
    kind = s.ChoiceField(("line", "kit", "carton", "bag", "shelf"))
    title = s.CharField()
    words = s.CharField()
    step = StepNameOut(allow_null=True)
    stops = s.CharField()
    have = s.IntegerField(allow_null=True)
    need = s.IntegerField(allow_null=True)
    due = s.DateTimeField(allow_null=True)
    due_words = s.CharField()
    overdue = s.BooleanField()
    uncounted = s.BooleanField()
    typed = s.BooleanField()
    needed = s.IntegerField()
    lines = MissingLineOut(many=True)


class ArrivalOut(s.Serializer):
    """`key` is that of the missing thing; one that several steps need stands once for each."""

    key = s.CharField()
    title = s.CharField()
    step = StepNameOut()
    due = s.DateTimeField()
    due_words = s.CharField()
    needed_at = s.DateTimeField()
    words = s.CharField()


class ReadinessOut(s.Serializer):
    """How far the job can go with what was counted. `verdict` is null where nothing can be said; `sentence` says why.

    `not_before`: the customer may withdraw until then, and nothing is ordered or begun.
    `counted` and `lines` are those of the pull list, also of what is in a kit and not for this vehicle.
    `hours_before_hold`: hours of the clear steps up to the hold.
    """

    job = JobOfListOut()
    customer = s.CharField()
    vehicle = s.CharField()
    verdict = s.ChoiceField(VERDICTS, allow_null=True)
    sentence = s.CharField()
    notes = s.ListField(child=s.CharField())
    hold_before = HoldOut(allow_null=True)
    cleared_hours = s.CharField()
    hours_before_hold = s.CharField(allow_null=True)
    total_hours = s.CharField()
    counted = s.IntegerField()
    lines = s.IntegerField()
    list = ListOfJobOut(allow_null=True)
    last_counted_at = s.DateTimeField(allow_null=True)
    steps = StepReadinessOut(many=True)
    missing = MissingOut(many=True)
    arrivals = ArrivalOut(many=True)
    to_order = ProposedOrderOut(many=True)
    promise = PromiseOut(allow_null=True)
    no_promise = s.CharField(allow_null=True)
    here = s.BooleanField()
    here_from = s.DateField(allow_null=True)
    not_before = s.DateField(allow_null=True)
    how = ExplainedOut()


class DueIn(s.Serializer):
    """A `day` without `time`: as the shop closes. No day: as the supplier's lead days say."""

    lines = s.ListField(child=s.UUIDField(), min_length=1, max_length=MOST_LINES)
    day = s.DateField(allow_null=True)
    time = TimeOfDay(allow_null=True, required=False, default=None)


class DueLineOut(s.Serializer):
    line = s.UUIDField()
    due_at = s.DateTimeField(allow_null=True)
    before = s.DateTimeField(allow_null=True)


class DueBackOut(s.Serializer):
    lines = s.ListField(child=s.UUIDField())
    day = s.DateField(allow_null=True)
    time = s.CharField(allow_null=True)


class DueOut(s.Serializer):
    """`words`: when they come now, null where a day was removed. `undo`: what to send to have it as it was."""

    words = s.CharField(allow_null=True)
    items = DueLineOut(many=True)
    undo = DueBackOut(many=True)
