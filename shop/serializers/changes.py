from rest_framework import serializers as s

from shop.models import ChangeNumber


class ChangeOut(s.Serializer):
    kind = s.ChoiceField(choices=ChangeNumber.Kind.choices)
    number = s.IntegerField()


class ChangesOut(s.Serializer):
    """`number` is the sum over the kinds; `epoch` is raised when a backup is put back."""

    epoch = s.IntegerField()
    number = s.IntegerField()
    kinds = ChangeOut(many=True)
