from rest_framework import serializers as s


class PullListRowOut(s.Serializer):
    """`lines` and `counted` leave out re-used parts, which are on the vehicle."""

    id = s.UUIDField()
    job = s.CharField()
    job_id = s.UUIDField()
    number = s.CharField()
    customer = s.CharField()
    vehicle = s.CharField()
    kits = s.ListField(child=s.CharField())
    state = s.ChoiceField(("open", "closed"))
    lines = s.IntegerField()
    counted = s.IntegerField()
    opened_at = s.DateTimeField()


class JobOfListOut(s.Serializer):
    id = s.UUIDField()
    number = s.CharField()


class PullLineOut(s.Serializer):
    """`pieces` is what a person counts; `codes` what a scanner may read on the part, besides its number."""

    id = s.UUIDField()
    position = s.IntegerField()
    kind = s.ChoiceField(("box", "beside", "need", "reused"))
    kit = s.CharField()
    number = s.CharField()
    title = s.CharField()
    quantity = s.CharField()
    pieces = s.IntegerField()
    unit = s.CharField()
    carton = s.CharField()
    bag = s.CharField()
    operation = s.CharField()
    codes = s.ListField(child=s.CharField())


class KitOfListOut(s.Serializer):
    """A kit by its name as it was when the list was opened."""

    code = s.CharField()
    title = s.CharField()


class PullListOut(s.Serializer):
    """`seq` is the last place in the list's log, `epoch` the log's own. `kits` stand in the list's order."""

    id = s.UUIDField()
    job = JobOfListOut()
    customer = s.CharField()
    vehicle = s.CharField()
    state = s.ChoiceField(("open", "closed"))
    seq = s.IntegerField()
    epoch = s.IntegerField()
    version = s.IntegerField()
    kits = KitOfListOut(many=True)
    lines = PullLineOut(many=True)


class CloseIn(s.Serializer):
    """`seq`: the last place in the log that was on the screen of whoever closes."""

    seq = s.IntegerField(min_value=0)


class LineStateOut(s.Serializer):
    """A word for the line and the pieces it speaks of, 0 where it stands alone."""

    code = s.CharField()
    count = s.IntegerField()
    words = s.CharField()


class CountedByOut(s.Serializer):
    """A count that stands: whose, when by their phone, and what they said."""

    who = s.CharField()
    at = s.DateTimeField()
    words = s.CharField()


class DifferenceOut(s.Serializer):
    """In whole pieces. `total`, `damaged` and `low` are null while nobody has counted the line.

    `weighed`: its last count was made on a scale. `counted_by`: the counts that its figures rest on, first to last.
    `counted`, `differs`, `count_again` and `sealed` name the figures of the report that the line is counted in.
    """

    line = s.UUIDField()
    kind = s.CharField()
    number = s.CharField()
    title = s.CharField()
    carton = s.CharField()
    bag = s.CharField()
    expected = s.IntegerField()
    unit = s.CharField()
    total = s.IntegerField(allow_null=True)
    damaged = s.IntegerField(allow_null=True)
    low = s.IntegerField(allow_null=True)
    weighed = s.BooleanField()
    states = LineStateOut(many=True)
    counted_by = CountedByOut(many=True)
    counted = s.BooleanField()
    differs = s.BooleanField()
    count_again = s.BooleanField()
    sealed = s.BooleanField()
    operation = s.CharField()


class ReportOut(s.Serializer):
    """Every line that is not all here, as of `seq`.

    The figures are numbers of lines: `counted` and `not_counted` are all of them. A line differs when it was counted
    with another total than expected, or pieces are damaged, or a wrong-part note stands; lines to count again, lines
    accepted sealed and lines with a count that came after closing are figures of their own.
    """

    id = s.UUIDField()
    job = JobOfListOut()
    state = s.ChoiceField(("open", "closed"))
    seq = s.IntegerField()
    closed_at = s.DateTimeField(allow_null=True)
    closed_by = s.CharField(allow_null=True)
    lines = s.IntegerField()
    counted = s.IntegerField()
    not_counted = s.IntegerField()
    differ = s.IntegerField()
    count_again = s.IntegerField()
    sealed = s.IntegerField()
    late = s.IntegerField()
    differences = DifferenceOut(many=True)


class ProposedLineOut(s.Serializer):
    number = s.CharField()
    title = s.CharField()
    quantity = s.CharField()
    unit = s.CharField()

    def get_fields(self) -> dict[str, s.Field]:
        return {**super().get_fields(), "for": s.CharField()}  # a keyword of the language


class ProposedOrderOut(s.Serializer):
    """`supplier` is null for parts of which nobody knows where they are bought."""

    supplier = s.CharField(allow_null=True)
    lines = ProposedLineOut(many=True)


class OrdersOut(s.Serializer):
    """Proposed, nothing is stored or sent. `not_before`: words, while the customer may withdraw."""

    not_before = s.CharField(allow_null=True)
    suppliers = ProposedOrderOut(many=True)
