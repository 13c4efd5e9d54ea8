from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.changes import ChangeOut, ChangesOut
from shop.api.endpoint import Endpoint
from shop.api.params import parse_whole
from shop.api.query_parameters import MOST_ASKED, whole
from shop.models.changes import ChangeKind


class Changes(Endpoint):
    """The changes in the shop: a number for each kind that the role may read.

    304 as long as `since` is the sum of these numbers, and `epoch` the shop's. A lower sum than `since` means that a
    backup was put back: everything is to be read again.
    """

    responses = {"get": {200: ChangesOut, 304: None}}
    permissions = {"get": access.EVERYONE}
    query_parameters = {
        "since": whole("the number of the last answer", 0, MOST_ASKED),
        "epoch": whole("the epoch of the last answer", 0, MOST_ASKED),
    }

    def admit(self, request: Request, slug: str, allowed: frozenset[str]) -> None:
        self.epoch, self.kinds = access.change_numbers(request.user, slug)

    def get(self, request: Request, slug: str) -> Response:
        """Read the numbers of changes."""
        kinds, epoch, number = self.kinds, self.epoch, sum(self.kinds.values())
        now = {"since": number, "epoch": epoch}
        requested = {name: parse_whole(request.query_params[name], f"/{name}", 0) for name in request.query_params}
        unchanged = "since" in requested and requested.items() <= now.items()
        changes = [ChangeOut(kind=ChangeKind(kind), number=latest) for kind, latest in kinds.items()]
        body = ChangesOut(epoch=epoch, number=number, kinds=changes)
        # Stored by nobody: a browser would answer a repeated address from its own copy.
        headers = {"Cache-Control": "no-store"}
        return Response(status=304, headers=headers) if unchanged else Response(body, headers=headers)
