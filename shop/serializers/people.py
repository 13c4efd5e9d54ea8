from rest_framework import serializers as s


class SignIn(s.Serializer):
    email = s.EmailField()
    password = s.CharField(trim_whitespace=False, max_length=256)


class PasswordIn(s.Serializer):
    current_password = s.CharField(trim_whitespace=False, max_length=256)
    new_password = s.CharField(trim_whitespace=False)


class SignInOut(s.Serializer):
    """A sign-in on one device. `here`: it is the one that asks. It ends at `ends_at` unless something is changed."""

    id = s.UUIDField()
    here = s.BooleanField()
    device = s.ChoiceField(["phone", "computer", "unknown"])
    started_at = s.DateTimeField()
    ends_at = s.DateTimeField()


class Person(s.Serializer):
    name = s.CharField()
    email = s.EmailField()


class OwnShop(s.Serializer):
    slug = s.CharField()
    name = s.CharField()
    currency = s.CharField()
    exponent = s.IntegerField()
    zone = s.CharField()
    units = s.CharField()
    role = s.CharField()
    member = s.UUIDField()


class SessionOut(s.Serializer):
    signed_in = s.BooleanField()
    user = Person(allow_null=True)
    shops = OwnShop(many=True)
