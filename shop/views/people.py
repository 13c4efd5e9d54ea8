from uuid import UUID

from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.base import utc
from shop.answers.people import EntryLinkOut, MemberOut, PeopleOut
from shop.answers.session import SignInOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, SecretAnswer
from shop.api.public_address import address
from shop.models import EntryLink
from shop.presenters.people import member_answer, people_answer
from shop.presenters.session import sign_in_answer
from shop.serializers.nothing import Nothing
from shop.serializers.people import InvitationIn, RoleIn
from shop.services.entry_links import invite, make_password_link, withdraw_invitation
from shop.services.members import change_role, end_sign_in, end_sign_ins, remove
from shop.services.sessions import sessions_of


class People(Endpoint):
    """The people of the shop."""

    responses = {"get": PeopleOut}
    permissions = {"get": access.OFFICE}

    def get(self, request: Request, slug: str) -> Response:
        """List the members of the shop and the open invitations."""
        members, invitations = access.members(self.actor), access.invitations(self.actor, timezone.now())
        return Response(people_answer(members, invitations, self.actor))


class Person(Endpoint):
    """A member of the shop. The last manager keeps the role and stays."""

    request_bodies = {"patch": RoleIn}
    responses = {"patch": MemberOut, "delete": {204: None}}
    permissions = {"patch": access.OFFICE, "delete": access.OFFICE}

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Give a member another role."""
        member = access.member(self.actor, id)
        change_role(actor=self.actor, member=member, role=self.body(request)["role"], now=timezone.now())
        return Response(member_answer(access.member(self.actor, id), self.actor))

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Remove a member, and end all sign-ins of the person."""
        remove(actor=self.actor, member=access.member(self.actor, id), now=timezone.now())
        return Response(status=204)


class PasswordLink(Endpoint):
    """A link for a new password, which the manager hands over to the member. Its address is told once."""

    request_bodies = {"post": Nothing}
    responses = {"post": {201: EntryLinkOut}}
    permissions = {"post": access.OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Make a link for a new password of a member."""
        member = access.member(self.actor, id)
        link, token = make_password_link(actor=self.actor, member=member, now=timezone.now())
        return _told_once(request, link, member.user.email, token)


class Invitations(Endpoint):
    """Invitations by link. The address of one is told once."""

    request_bodies = {"post": InvitationIn}
    responses = {"post": {201: EntryLinkOut}}
    permissions = {"post": access.OFFICE}

    def post(self, request: Request, slug: str) -> Response:
        """Invite a person."""
        link, token = invite(actor=self.actor, now=timezone.now(), **self.body(request))
        return _told_once(request, link, link.email, token)


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


def _told_once(request: Request, link: EntryLink, email: str, token: str) -> SecretAnswer:
    """The link with its address. The secret stands behind #, which a browser sends to no server."""
    expires_at = utc(link.expires_at)
    answer = EntryLinkOut(email=email, url=address(request, f"/sign-in#{token}"), expires_at=expires_at)
    return SecretAnswer(answer, stored=EntryLinkOut(email=email, url=None, expires_at=expires_at))
