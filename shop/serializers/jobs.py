from rest_framework import serializers as s

from shop.answers.explained import ExplainedOut
from shop.serializers.answer import AnswerField


class JobRowOut(s.Serializer):
    id = s.UUIDField()
    number = s.CharField()
    state = s.CharField()
    customer = s.CharField()
    vehicle = s.CharField()
    plate = s.CharField()
    hours = s.CharField()
    opened_at = s.DateTimeField()


class TorqueOut(s.Serializer):
    """A tightening value; with the kind "other" a run-out, pressure or height, whose `fastener` is what is measured."""

    fastener = s.CharField()
    value = s.CharField()
    kind = s.ChoiceField(choices=["torque", "other"])


class JobOperationOut(s.Serializer):
    position = s.IntegerField()
    code = s.CharField()
    title = s.CharField()
    hours = s.CharField()
    skill = s.CharField()
    stage = s.CharField()
    after = s.ListField(child=s.CharField())
    wait_after = s.IntegerField()
    no_return = s.BooleanField()
    mobile_again = s.BooleanField()
    hold_point = s.BooleanField()
    cautions = s.ListField(child=s.CharField())
    torques = TorqueOut(many=True)
    kits = s.ListField(child=s.CharField())
    kit_titles = s.ListField(child=s.CharField())
    why = s.ListField(child=s.CharField())
    how = AnswerField(ExplainedOut, allow_null=True)


class FollowUpOut(s.Serializer):
    """Work that is still to be done after hand-over."""

    code = s.ChoiceField(choices=["wheel_check"])
    words = s.CharField()


class JobIn(s.Serializer):
    """`here`: the vehicle is here already; `here_from`: the day it comes. Neither: a day is proposed."""

    here = s.BooleanField(required=False)
    here_from = s.DateField(allow_null=True, required=False)


class JobOut(JobRowOut):
    here = s.BooleanField()
    here_from = s.DateField(allow_null=True)
    vin_tail = s.CharField()
    attributes = s.DictField(child=s.CharField())
    capacities = s.DictField(child=s.CharField())
    operations = JobOperationOut(many=True)
    follow_ups = FollowUpOut(many=True)
    notices = s.ListField(child=s.CharField())
