"""Generates OpenAPI 3.1 from the endpoints' attributes. The document is committed and compared in `make test`."""

from collections.abc import Iterable, Mapping
from typing import Any

from drf_spectacular.extensions import OpenApiAuthenticationExtension, OpenApiSerializerFieldExtension
from drf_spectacular.openapi import AutoSchema
from drf_spectacular.types import OpenApiTypes
from drf_spectacular.utils import OpenApiParameter
from rest_framework.serializers import ListField, ListSerializer

from shop import access
from shop.answers.base import Answer
from shop.api.bearer import area_of
from shop.api.components import components, is_answer, reference
from shop.api.field_descriptions import describe_fields, describe_path
from shop.api.problems import slugs
from shop.api.query_parameters import OF_PAGES, as_query

TOKEN = "token"  # the name of the security scheme
PROBLEM = {
    "type": "object",
    "required": ["type", "title", "status", "detail"],
    "properties": {
        "type": {
            "type": "string",
            "enum": [f"/problems/{slug}" for slug in slugs()],
            "description": "The code of the refusal, for programs to compare.",
        },
        "title": {"type": "string", "description": "The event, in a few words."},
        "status": {"type": "integer", "description": "The status of the response."},
        "detail": {"type": "string", "description": "The remedy."},
        "errors": {
            "type": "array",
            "description": "The fault of each field of the request.",
            "items": {
                "type": "object",
                "required": ["pointer", "detail"],
                "properties": {
                    "pointer": {"type": "string", "description": "The field, as a JSON pointer."},
                    "detail": {"type": "string", "description": "The value to enter instead."},
                },
            },
        },
    },
}


def _header(name: str, type_: OpenApiTypes, words: str) -> OpenApiParameter:
    return OpenApiParameter(name, type_, OpenApiParameter.HEADER, required=True, description=words)


class EndpointSchema(AutoSchema):
    def _method(self) -> tuple[Any, str]:
        return self.view, self.method.lower()

    def get_request_serializer(self) -> Any:
        view, method = self._method()
        return view.request_bodies.get(method) if hasattr(view, "request_bodies") else None

    def get_response_serializers(self) -> Any:
        view, method = self._method()
        response = view.responses.get(method)
        if isinstance(response, Mapping):
            return {status: reference(type_) if is_answer(type_) else type_ for status, type_ in response.items()}
        if is_answer(response):
            return {200: reference(response)}
        if response is bytes:
            return {(200, renderer.media_type): OpenApiTypes.BINARY for renderer in view.renderer_classes}
        return {200: response}

    def get_override_parameters(self) -> list[Any]:
        view, method = self._method()
        parameters = []
        if method == "get":
            for name, value in {**view.query_parameters, **(OF_PAGES if view.paginated else {})}.items():
                query = as_query(value)
                parameters.append(
                    OpenApiParameter(name, dict(query.schema), required=query.required, description=query.words)
                )
        if method == "post" and view.idempotency_key:
            parameters.append(
                _header("Idempotency-Key", OpenApiTypes.UUID, "The id of the command: a repeat gets the first answer.")
            )
        if method in view.versioned:
            parameters.append(_header("If-Match", OpenApiTypes.STR, "The ETag of what was seen."))
        return parameters

    def get_auth(self) -> list[dict[str, list[str]]]:
        view, method = self._method()
        if getattr(view, "permissions", {}).get(method) == access.ANYONE:
            return [{}]
        schemes: list[dict[str, list[str]]] = super().get_auth()
        return (
            schemes if area_of(self.path.removeprefix("/")) else [scheme for scheme in schemes if TOKEN not in scheme]
        )

    def get_operation_id(self) -> str:
        view, method = self._method()
        return f"{method}{type(view).__name__}"

    def get_tags(self) -> list[str]:
        return [type(self.view).__module__.split(".")[0]]

    def get_summary(self) -> str:
        """The first line of the method's docstring; the view's own describes the resource."""
        view, method = self._method()
        return (getattr(view, method).__doc__ or "").partition("\n")[0].rstrip(".")

    def get_description(self) -> str:  # type: ignore[override]
        return (type(self.view).__doc__ or "").strip()

    def get_filter_parameters(self) -> list[Any]:
        return []

    def _is_list_view(self, serializer: Any = None) -> bool:
        return False

    def _map_serializer_field(self, field: Any, direction: Any, bypass_extensions: bool = False) -> Any:
        """The schema of a field; of a list with the least and the most entries that it may have."""
        schema = super()._map_serializer_field(field, direction, bypass_extensions)
        if not isinstance(field, ListField | ListSerializer):
            return schema
        rows: Any = field
        lengths = {"minItems": rows.min_length or (None if rows.allow_empty else 1), "maxItems": rows.max_length}
        return schema | {name: length for name, length in lengths.items() if length is not None}


def complete(result: dict[str, Any], generator: Any, **kw: Any) -> dict[str, Any]:
    """Completes the document: components of answers, closed requests, and a problem for every operation."""
    schemas = result["components"].setdefault("schemas", {})
    answers = components(_answers(view.cls for _, _, _, view in generator.endpoints))
    if both := schemas.keys() & answers.keys():
        raise ValueError(f"a serializer and an answer have one name: {', '.join(sorted(both))}")
    schemas |= answers | {"Problem": PROBLEM}
    describe_fields(schemas)
    answer = {
        "description": "A refusal (RFC 9457)",
        "content": {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }
    _close_requests(result)
    for path in result["paths"].values():
        for operation in path.values():
            if isinstance(operation, dict) and "responses" in operation:
                operation["responses"]["default"] = answer
                describe_path(operation)
    return result


def _answers(views: Iterable[Any]) -> list[type[Answer]]:
    """The answers of these views, sorted by name."""
    answers: set[type[Answer]] = set()
    for view in views:
        for response in getattr(view, "responses", {}).values():
            types = response.values() if isinstance(response, Mapping) else [response]
            answers |= {type_ for type_ in types if is_answer(type_)}
    return sorted(answers, key=lambda answer: answer.__name__)


def _close_requests(result: dict[str, Any]) -> None:
    """Sets `additionalProperties: false` at every depth of the requests, as unknown fields are refused."""
    schemas = result["components"]["schemas"]
    waiting = [
        content["schema"]
        for path in result["paths"].values()
        for operation in path.values()
        for content in operation.get("requestBody", {}).get("content", {}).values()
    ]
    seen: set[str] = set()
    while waiting:
        schema = waiting.pop()
        if isinstance(schema, list):
            waiting += schema
        elif isinstance(schema, dict):
            if (name := schema.get("$ref", "").rpartition("/")[2]) and name not in seen:
                seen.add(name)
                waiting.append(schemas[name])
            if "properties" in schema:
                schema.setdefault("additionalProperties", False)
            waiting += [value for key, value in schema.items() if isinstance(value, dict | list) and key != "enum"]


class FigureSchema(OpenApiSerializerFieldExtension):
    """Schema of a figure: a digit and no sign. The pattern of DRF's field would match an empty text and a minus."""

    target_class = "shop.serializers.figure.Figure"

    def map_serializer_field(self, auto_schema: Any, direction: Any) -> dict[str, Any]:
        whole, places = self.target.max_digits - self.target.decimal_places, self.target.decimal_places
        pattern = rf"^([0-9]{{1,{whole}}}(\.[0-9]{{0,{places}}})?|\.[0-9]{{1,{places}}})$"
        return {"type": "string", "format": "decimal", "pattern": pattern}


class TokenScheme(OpenApiAuthenticationExtension):
    target_class = "shop.api.bearer.BearerToken"
    name = TOKEN

    def get_security_definition(self, auto_schema: Any) -> dict[str, str]:
        return {"type": "http", "scheme": "bearer"}


class SessionScheme(OpenApiAuthenticationExtension):
    target_class = "shop.api.sign_in.SessionWithCsrf"
    name = "session"

    def get_security_definition(self, auto_schema: Any) -> dict[str, str]:
        return {"type": "apiKey", "in": "cookie", "name": "__Host-sessionid"}
