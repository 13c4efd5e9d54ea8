from typing import Any

from rest_framework import serializers as s


class SignIn(s.Serializer[Any]):
    email = s.EmailField()
    password = s.CharField(trim_whitespace=False, max_length=256, help_text="The password of the person.")


class PasswordIn(s.Serializer[Any]):
    current_password = s.CharField(trim_whitespace=False, max_length=256, help_text="The password until now.")
    new_password = s.CharField(trim_whitespace=False, help_text="The password from now on.")
