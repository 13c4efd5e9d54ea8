from typing import Any

from rest_framework import serializers as s

from shop.models import Shop
from shop.models.people import MemberRole


class SignIn(s.Serializer[Any]):
    email = s.EmailField()
    password = s.CharField(trim_whitespace=False, max_length=256, help_text="The password of the person.")
    code = s.CharField(
        max_length=40,
        required=False,
        help_text="A code of the authenticator app, or a recovery code.",
    )


class OwnPasswordIn(s.Serializer[Any]):
    password = s.CharField(trim_whitespace=False, max_length=256, help_text="The password of the person.")


class PinIn(s.Serializer[Any]):
    id = s.UUIDField(help_text="The PIN's id, which the device keeps with the person's name.")
    pin = s.CharField(max_length=40, help_text="The six digits.")


class NewPinIn(OwnPasswordIn):
    pin = s.CharField(max_length=40, help_text="Six digits, which are not easy to guess.")


class CodeIn(s.Serializer[Any]):
    code = s.CharField(max_length=40, help_text="The six digits that the authenticator app shows.")


class AskedFactorIn(s.Serializer[Any]):
    second_factor = s.ChoiceField(
        choices=Shop.SecondFactor.choices, help_text="The members who must have a second factor."
    )


class ForgottenIn(s.Serializer[Any]):
    email = s.EmailField(help_text="The e-mail with which the person signs in.")


class PasswordIn(s.Serializer[Any]):
    current_password = s.CharField(trim_whitespace=False, max_length=256, help_text="The password until now.")
    new_password = s.CharField(trim_whitespace=False, help_text="The password from now on.")


class EntryMailIn(s.Serializer[Any]):
    by_mail = s.BooleanField(
        default=False, help_text="Send the link to the person's e-mail; the answer then does not tell its address."
    )


class RoleIn(s.Serializer[Any]):
    role = s.ChoiceField(choices=MemberRole.choices, help_text="The role of the person in the shop.")


class InvitationIn(EntryMailIn):
    email = s.EmailField(help_text="The e-mail with which the person will sign in.")
    role = s.ChoiceField(choices=MemberRole.choices, help_text="The role that the person will have.")


class EntryTokenIn(s.Serializer[Any]):
    token = s.CharField(max_length=100, help_text="The secret of the link, which stands in its address behind #.")


class EntryIn(EntryTokenIn):
    name = s.CharField(max_length=120, required=False, help_text="The name of the person; asked for in an invitation.")
    password = s.CharField(
        trim_whitespace=False,
        max_length=256,
        help_text="The password from now on; of a person who works in another shop too the password that they have.",
    )
