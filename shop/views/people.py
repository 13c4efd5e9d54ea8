from datetime import datetime
from uuid import UUID

from django.conf import settings
from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.base import utc
from shop.answers.people import EntryLinkOut, MemberOut, PeopleOut
from shop.answers.pins import PinOut
from shop.answers.session import SignInOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, SecretAnswer
from shop.api.public_address import address
from shop.api.sign_in import device_of
from shop.models import EntryLink
from shop.presenters.people import member_answer, people_answer
from shop.presenters.pins import pin_answer
from shop.presenters.session import sign_in_answer
from shop.serializers.people import EntryMailIn, InvitationIn, RoleIn
from shop.services.entry_links import hash_of, invite, make_password_link, withdraw_invitation
from shop.services.entry_mails import send_entry_link
from shop.services.members import change_role, end_pin_of, end_sign_in, end_sign_ins, remove
from shop.services.pins import pins_of
from shop.services.sessions import sessions_of


class People(Endpoint):
    """The people of the shop."""

    responses = {"get": PeopleOut}
    permissions = {"get": access.OFFICE}

    def get(self, request: Request, slug: str) -> Response:
        """List the members of the shop and the open invitations."""
        now = timezone.now()
        members, invitations = access.members(self.actor), access.invitations(self.actor, now)
        mails = access.entry_mails(self.actor, now)
        answer = people_answer(members, invitations, mails, self.actor, now, is_sent=settings.MAIL_IS_SENT)
        return Response(answer)


class Person(Endpoint):
    """A member of the shop. The last manager keeps the role and stays."""

    request_bodies = {"patch": RoleIn}
    responses = {"patch": MemberOut, "delete": {204: None}}
    permissions = {"patch": access.OFFICE, "delete": access.OFFICE}

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Give a member another role."""
        member, now = access.member(self.actor, id), timezone.now()
        change_role(actor=self.actor, member=member, role=self.body(request)["role"], now=now)
        mails = access.entry_mails(self.actor, now)
        return Response(member_answer(access.member(self.actor, id), mails, self.actor, now))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Remove a member, and end all sign-ins of the person."""
        remove(actor=self.actor, member=access.member(self.actor, id), now=timezone.now())
        return Response(status=204)


class PasswordLink(Endpoint):
    """A link for a new password, which goes to the member by e-mail or is handed over. Its address is shown once."""

    request_bodies = {"post": EntryMailIn}
    responses = {"post": {201: EntryLinkOut}}
    permissions = {"post": access.OFFICE}
    needs_password = "entry-link-needs-password"

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Make a link for a new password of a member."""
        member, now, by_mail = access.member(self.actor, id), timezone.now(), self.body(request)["by_mail"]
        link, token = make_password_link(actor=self.actor, member=member, now=now)
        return _handed_over(self, request, link, token, by_mail=by_mail, now=now)


class Invitations(Endpoint):
    """Invitations by link, which goes out by e-mail or is handed over. The address of one is shown once."""

    request_bodies = {"post": InvitationIn}
    responses = {"post": {201: EntryLinkOut}}
    permissions = {"post": access.OFFICE}
    needs_password = "entry-link-needs-password"

    def post(self, request: Request, slug: str) -> Response:
        """Invite a person."""
        body, now = self.body(request), timezone.now()
        link, token = invite(actor=self.actor, email=body["email"], role=body["role"], now=now)
        return _handed_over(self, request, link, token, by_mail=body["by_mail"], now=now)


class Invitation(Endpoint):
    """An invitation. DELETE withdraws it: its link no longer works."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, invitation: UUID) -> Response:
        """Withdraw an invitation."""
        now = timezone.now()
        withdraw_invitation(actor=self.actor, link=access.invitation(self.actor, invitation), now=now)
        return Response(status=204)


class SignInsOfPerson(Endpoint):
    """The sign-ins of a member on all devices, newest first. DELETE ends all of them."""

    responses = {"get": list_of(SignInOut), "delete": {204: None}}
    permissions = {"get": access.OFFICE, "delete": access.OFFICE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the sign-ins of a member."""
        member, here = access.member(self.actor, id), request._request.session.session_key
        rows = sessions_of(user=member.user_id, now=timezone.now())
        return Response({"items": [sign_in_answer(row, here) for row in rows]})

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """End all sign-ins of a member."""
        end_sign_ins(actor=self.actor, member=access.member(self.actor, id))
        return Response(status=204)


class SignInOfPerson(Endpoint):
    """One sign-in of a member. DELETE ends it."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, id: UUID, sign_in: UUID) -> Response:
        """End one sign-in of a member."""
        if not end_sign_in(actor=self.actor, member=access.member(self.actor, id), id=sign_in):
            raise Http404
        return Response(status=204)


class PinsOfPerson(Endpoint):
    """The PINs of a member on all phones, newest first."""

    responses = {"get": list_of(PinOut)}
    permissions = {"get": access.OFFICE}

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """List the PINs of a member."""
        member, here = access.member(self.actor, id), hash_of(device_of(request))
        rows = pins_of(user=member.user, now=timezone.now())
        return Response({"items": [pin_answer(row, here) for row in rows]})


class PinOfPerson(Endpoint):
    """One PIN of a member. DELETE ends it."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, id: UUID, pin: UUID) -> Response:
        """End one PIN of a member, such as that of a lost phone."""
        if not end_pin_of(actor=self.actor, member=access.member(self.actor, id), id=pin):
            raise Http404
        return Response(status=204)


def _handed_over(
    view: Endpoint, request: Request, link: EntryLink, token: str, *, by_mail: bool, now: datetime
) -> Response:
    """The link with its address, or without it where it goes out by e-mail: then nobody but the person has it.

    The secret stands behind #, which a browser sends to no server.
    """
    email, expires_at = link.member.user.email if link.member else link.email, utc(link.expires_at)
    without = EntryLinkOut(email=email, url=None, expires_at=expires_at)
    if by_mail:
        site = address(request, "/").rstrip("/")
        send_entry_link(actor=view.actor, link=link, token=token, site=site, now=now)
        return Response(without, status=201)
    answer = EntryLinkOut(email=email, url=address(request, f"/sign-in#{token}"), expires_at=expires_at)
    return SecretAnswer(answer, stored=without)
