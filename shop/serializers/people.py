from rest_framework import serializers as s


class SignIn(s.Serializer):
    email = s.EmailField()
    password = s.CharField(trim_whitespace=False, max_length=256)


class PasswordIn(s.Serializer):
    current_password = s.CharField(trim_whitespace=False, max_length=256)
    new_password = s.CharField(trim_whitespace=False)


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
