"""The tables of an archive and their columns, worked out from the models."""

from collections.abc import Iterator, Sequence
from graphlib import TopologicalSorter
from typing import Any

from django.apps import apps
from django.db.models import Model, QuerySet

from shop.models import ApiToken, CalendarFeed, EntryLink, Shop, User, Webhook, WebhookMessage
from shop.rows import ShopRow

Table = type[Model]
# Credentials are valid only for the installation that made them, and only that one sends to its webhooks.
STAYS = {ApiToken, CalendarFeed, EntryLink, Webhook, WebhookMessage}
SECRET = {("shop_user", "password"), ("shop_user", "last_login"), ("shop_user", "second_factor_since")}


def tables() -> list[Table]:
    """Every table with rows of a shop that leave the installation, after all tables that its keys point to."""
    models: list[Table] = [Shop, User, *(model for model in apps.get_models() if issubclass(model, ShopRow))]
    models = [model for model in models if model not in STAYS]
    graph = {
        model: sorted({key.related_model for key in keys(model)} - {model}, key=name)
        for model in sorted(models, key=name)
    }
    return list(TopologicalSorter(graph).static_order())


def name(model: Table) -> str:
    """The table's name in the database and, with .csv, in the archive."""
    return model._meta.db_table


def columns(model: Table) -> list[Any]:
    """The columns of a table that leave the installation."""
    return [field for field in model._meta.concrete_fields if (name(model), field.column) not in SECRET]


def keys(model: Table) -> list[Any]:
    return [field for field in model._meta.concrete_fields if field.is_relation]


def rows(model: Table, shop: Shop) -> QuerySet[Any]:
    """The shop's rows of a table, in the order of their ids. The people are those who are members of the shop."""
    if model is Shop:
        where: dict[str, Any] = {"pk": shop.pk}
    elif model is User:
        where = {"memberships__shop": shop}
    else:
        where = {"shop": shop}
    return model._base_manager.filter(**where).order_by("pk")


def schema() -> list[dict[str, Any]]:
    """The description of all tables in schema.json."""
    return [{"table": name(model), "columns": [_column(field) for field in columns(model)]} for model in tables()]


def _column(field: Any) -> dict[str, Any]:
    facts = {"name": field.column, "type": type(field.target_field if field.is_relation else field).__name__}
    if field.is_relation:
        facts["key_of"] = name(field.related_model)
    if (decimals := getattr(field, "scale", None)) is not None:
        facts["decimals"] = decimals
    return {**facts, "null": field.null}


def parents_first(model: Table, table_rows: Sequence[Any]) -> Iterator[Any]:
    """The rows of a table, each after the rows of the same table that it points to."""
    own = [key.attname for key in keys(model) if key.related_model is model]
    by_id = {row.pk: row for row in table_rows}
    graph = {row.pk: [id for key in own if (id := getattr(row, key)) in by_id] for row in table_rows}
    return (by_id[id] for id in TopologicalSorter(graph).static_order())
