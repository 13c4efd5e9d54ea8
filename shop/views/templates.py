from uuid import UUID

from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.templates import TemplateOut, TemplateRowOut
from shop.api.components import list_of
from shop.api.endpoint import Endpoint, versioned
from shop.api.query_parameters import archived_only, wants_archived
from shop.presenters.entries import refusals_worded
from shop.presenters.templates import template_answer, template_row
from shop.queries.search import typed_pieces
from shop.queries.templates import newest_templates
from shop.serializers.templates import TemplateArchived, TemplateIn, TemplateSteps
from shop.services import templates


class Templates(Endpoint):
    """The labour templates by code, each in its newest version."""

    request_bodies = {"post": TemplateIn}
    responses = {"get": list_of(TemplateRowOut), "post": {201: TemplateOut}}
    permissions = {"get": access.COUNTER, "post": access.OFFICE}
    query_parameters = {
        "q": "part of a code",
        "archived": archived_only("templates"),
    }
    paginated = True

    def get(self, request: Request, slug: str) -> Response:
        """List the templates by code."""
        rows = newest_templates(self.actor).filter(archived=wants_archived(request))
        for word in typed_pieces(request.query_params.get("q", "")):
            rows = rows.filter(code__icontains=word)
        return self.page(request, rows, ("code",), template_row)

    def post(self, request: Request, slug: str) -> Response:
        """Add a template."""
        body = self.body(request)
        with refusals_worded():
            row = templates.add_template(actor=self.actor, code=body["code"], steps=body["steps"])
        return versioned(template_answer(row, self.actor), row.version, 201)


class Template(Endpoint):
    """One version of a labour template."""

    request_bodies = {"patch": TemplateArchived}
    responses = {"get": TemplateOut, "patch": TemplateOut}
    permissions = {"get": access.COUNTER, "patch": access.OFFICE}
    versioned = frozenset({"patch"})

    def get(self, request: Request, slug: str, id: UUID) -> Response:
        """Read one version of a template."""
        row = access.template(self.actor, id)
        return versioned(template_answer(row, self.actor), row.version)

    def patch(self, request: Request, slug: str, id: UUID) -> Response:
        """Archive a template by its newest version, or bring it back."""
        row, seen = access.template(self.actor, id), self.expected_version(request)
        changed = templates.archive_template(
            actor=self.actor, template=row, seen=seen, archived=self.body(request)["archived"]
        )
        return versioned(template_answer(changed, self.actor), changed.version)


class TemplateVersions(Endpoint):
    """The versions that follow the newest version of a template."""

    request_bodies = {"post": TemplateSteps}
    responses = {"post": {201: TemplateOut}}
    permissions = {"post": access.OFFICE}

    def post(self, request: Request, slug: str, id: UUID) -> Response:
        """Add the next version. It brings an archived template back; earlier versions and all that was sold stay."""
        row = access.template(self.actor, id)
        with refusals_worded():
            row = templates.add_version(actor=self.actor, template=row, steps=self.body(request)["steps"])
        return versioned(template_answer(row, self.actor), row.version, 201)
