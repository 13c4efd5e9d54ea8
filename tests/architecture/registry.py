"""The rules of every model: rows of a shop, composite keys, an index for every key, shop first in every index."""

from collections.abc import Iterable, Iterator
from typing import Any

from django.db.models import Model, UniqueConstraint

from shop.constraints import SameShop
from shop.models import (
    Authenticator,
    OpeningCode,
    PasswordRequest,
    PersonSession,
    PhonePin,
    RecoveryCode,
    Shop,
    SignInTry,
    User,
)
from shop.rows import ShopKey, ShopRow

NOT_OF_A_SHOP = {
    *(Shop, User, PersonSession, PhonePin, SignInTry),
    *(PasswordRequest, OpeningCode, Authenticator, RecoveryCode),
}
NOT_LED_BY_SHOP = {("token_hash",), ("due_at",)}  # the shop is not yet known; one worker serves all shops
ORDER = {"shop": 0, "kitting": 1, "quotes": 2}


def faults(models: Iterable[type[Model]]) -> list[str]:
    return [fault for model in models for fault in _model_faults(model)]


def _model_faults(model: type[Model]) -> Iterator[str]:
    if model in NOT_OF_A_SHOP:
        return
    name = model.__name__
    if not issubclass(model, ShopRow):
        yield f"{name} is not a row of a shop"
        return
    leads = list(_leads(model))
    if not any(isinstance(c, UniqueConstraint) and c.fields == ("shop", "id") for c in model._meta.constraints):
        yield f"{name} has no unique (shop, id)"
    for lead in leads:
        if lead[0] != "shop" and lead not in NOT_LED_BY_SHOP:
            yield f"{name}: {lead} is not led by shop"
    yield from _key_faults(model, leads)
    yield from _name_faults(model)


def _leads(model: type[Model]) -> Iterator[tuple[str, ...]]:
    for constraint in model._meta.constraints:
        if isinstance(constraint, UniqueConstraint):
            yield tuple(constraint.fields)
    for index in model._meta.indexes:
        yield tuple(field.lstrip("-") for field in index.fields)
    for field in model._meta.local_fields:
        if field.unique and not field.primary_key:
            yield (field.name,)


def _key_faults(model: type[Model], leads: list[tuple[str, ...]]) -> Iterator[str]:
    same_shop = {field for c in model._meta.constraints if isinstance(c, SameShop) for field in c.fields}
    for field in model._meta.local_fields:
        target: Any = field.related_model
        if target is None or field.name == "shop" or not issubclass(target, ShopRow):
            continue
        where = f"{model.__name__}.{field.name}"
        if not isinstance(field, ShopKey) or field.name not in same_shop:
            yield f"{where} could point to another shop's row"
        if not any(lead[:2] == ("shop", field.name) for lead in leads) and not _inside(field.name, leads):
            yield f"{where} has no index"
        if ORDER[target._meta.app_label] > ORDER[model._meta.app_label]:
            yield f"{where} points up"


def _inside(name: str, leads: list[tuple[str, ...]]) -> bool:
    return any(lead[:1] == (name,) for lead in leads)


def _name_faults(model: type[Model]) -> Iterator[str]:
    for constraint in model._meta.constraints:
        if len(constraint.name) > 63:
            yield f"{constraint.name} is longer than PostgreSQL keeps"
    for index in model._meta.indexes:
        if len(index.name) > 30:
            yield f"{index.name} is longer than an index may be named"
