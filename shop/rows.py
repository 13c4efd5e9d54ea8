"""Base classes and fields of a shop's rows: UUID, shop, keys that stay inside the shop, exact decimals."""

import os
import time
import uuid
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from threading import Lock
from typing import TYPE_CHECKING, Any, ClassVar

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models.expressions import Col
from django.db.models.fields.related_lookups import RelatedExact, RelatedIn
from django.db.models.lookups import Exact

from shop.typed import ControlCharacterError, visible_in

if TYPE_CHECKING:
    from django.db.models.expressions import Combinable


TICKS = 4096  # of a millisecond, counted in the 12 bits after the version (RFC 9562, section 6.2, method 3)
_turn = Lock()
_last_tick = 0


def uuid7() -> uuid.UUID:
    """A UUID that begins with the time (RFC 9562, version 7): new rows go to the end of the index.

    It is above all that this process made before, so that rows sort as they were written.
    """
    return next(uuid7s(1))


def uuid7s(count: int) -> Iterator[uuid.UUID]:
    """So many UUIDs in rising order. The random bits of all come from one call."""
    random = os.urandom(8 * count)
    for place, tick in enumerate(_next_ticks(count)):
        bits = int.from_bytes(random[8 * place : 8 * place + 8]) >> 2
        yield uuid.UUID(int=tick // TICKS << 80 | 7 << 76 | tick % TICKS << 64 | 2 << 62 | bits)


def _next_ticks(count: int) -> range:
    """So many ticks that no other thread gets: from now on, or after the last one where the clock is behind it."""
    global _last_tick
    with _turn:
        first = max(time.time_ns() * TICKS // 1_000_000, _last_tick + 1)
        _last_tick = first + count - 1
    return range(first, first + count)


class TypedRow(models.Model):
    typed: ClassVar[tuple[str, ...]] = ()  # fields that a person types and that reach paper

    class Meta:
        abstract = True

    def clean_fields(self, exclude: Any = None) -> None:
        self.tidy()
        super().clean_fields(exclude)

    def clean_fields_as(self, **names: str) -> None:
        """`clean_fields`, whose errors name a column as the request does: `clean_fields_as(reason="because")`."""
        try:
            self.clean_fields()
        except ValidationError as error:
            raise ValidationError(
                {names.get(name, name): errors for name, errors in error.error_dict.items()}
            ) from None

    def tidy(self) -> None:
        """Removes invisible characters from the texts that were typed, and refuses control characters."""
        refused = {}
        for name in self.typed:
            try:
                setattr(self, name, visible_in(getattr(self, name)))
            except ControlCharacterError:
                refused[name] = ValidationError("control character", code="control_character")
        if refused:
            raise ValidationError(refused)


class ShopRow(TypedRow):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    shop = models.ForeignKey("shop.Shop", models.PROTECT, db_index=False, related_name="+")

    class Meta:
        abstract = True
        constraints = [models.UniqueConstraint(fields=["shop", "id"], name="%(class)s_is_of_one_shop")]


class ShopKey(models.ForeignKey):  # type: ignore[type-arg]  # the mypy plug-in types each use
    """A foreign key to a row of the same shop; a SameShop in Meta.constraints enforces it in the database.

    Every join compares the shops too, and so does every lookup by rows of the other table (related managers, prefetch,
    the deletion's collector): all indexes begin with the shop, so the database would otherwise read the whole table.
    A lookup by bare ids or by a subquery does not compare them: filter by the shop there.
    """

    def __init__(self, to: Any, on_delete: Any = models.PROTECT, **kw: Any) -> None:
        kw.setdefault("db_constraint", False)
        kw.setdefault("db_index", False)
        kw.setdefault("related_name", "+")
        super().__init__(to, on_delete, **kw)

    def validate(self, value: Any, model_instance: Any) -> None:
        """Makes no query: the database refuses a row that does not exist or belongs to another shop."""
        models.Field.validate(self, value, model_instance)

    def get_extra_restriction(self, alias: str | None, related_alias: str | None) -> Any:
        """SQL that the shops are equal. Django passes the target table's alias first, then that of the key's table."""
        if alias is None or related_alias is None:  # Django has trimmed one of the tables from a subquery
            return None
        return Exact(Col(related_alias, _shop_of(self.model)), Col(alias, _shop_of(self.remote_field.model)))


def _shop_of(model: Any) -> Any:
    return model._meta.get_field("shop")


def _common_shop(value: Any) -> uuid.UUID | None:
    """The shop of the compared row or rows; None for ids, subqueries and rows of several shops."""
    rows = value if isinstance(value, (list, tuple, set, frozenset)) else [value]
    shops = {row.shop_id if isinstance(row, ShopRow) else None for row in rows}
    return shops.pop() if len(shops) == 1 else None


def _in_shop(lookup: Any, shop: uuid.UUID | None, condition: tuple[str, Any], compiler: Any) -> tuple[str, list[Any]]:
    sql, params = condition
    if shop is None or not isinstance(lookup.lhs, Col):
        return sql, [*params]
    column = Col(lookup.lhs.alias, _shop_of(lookup.lhs.target.model))
    shop_sql, shop_params = compiler.compile(Exact(column, shop))
    return f"({sql} AND {shop_sql})", [*params, *shop_params]


@ShopKey.register_lookup
class ShopKeyExact(RelatedExact):
    """`key=row`, the lookup of related managers."""

    def __init__(self, lhs: Any, rhs: Any) -> None:
        self.shop = _common_shop(rhs)
        super().__init__(lhs, rhs)

    def as_sql(self, compiler: Any, connection: Any) -> Any:
        return _in_shop(self, self.shop, super().as_sql(compiler, connection), compiler)


@ShopKey.register_lookup
class ShopKeyIn(RelatedIn):
    """`key__in=rows`, the lookup of prefetch and of the deletion's collector."""

    def __init__(self, lhs: Any, rhs: Any) -> None:
        rows = rhs if hasattr(rhs, "resolve_expression") else list(rhs)
        self.shop = _common_shop(rows)
        super().__init__(lhs, rows)

    def as_sql(self, compiler: Any, connection: Any) -> Any:
        return _in_shop(self, self.shop, super().as_sql(compiler, connection), compiler)


MOST = 10**18  # the first whole number that is too large for the column


def fits(number: Decimal, scale: int) -> bool:
    """Returns whether the number has at most `scale` decimals and, without its point, at most 18 digits."""
    shifted = number.scaleb(scale)
    return abs(shifted) < MOST and shifted == shifted.to_integral_value()


class ExactDecimalField(models.BigIntegerField):  # type: ignore[type-arg]
    """Decimal stored as a whole number of 10**-scale, so that SQL compares and sums exactly on every database.

    Floats, NaN, infinity, and more decimals than the scale are refused, never rounded.
    """

    if TYPE_CHECKING:  # what the type checker's plugin reads: a whole number in the database, a Decimal in Python
        _pyi_private_set_type: str | int | Decimal | Combinable  # type: ignore[assignment]
        _pyi_private_get_type: Decimal  # type: ignore[assignment]
        _pyi_lookup_exact_type: str | int | Decimal  # type: ignore[assignment]

    def __init__(self, *args: Any, scale: int = 3, **kw: Any) -> None:
        self.scale, self.unit = scale, Decimal(1).scaleb(-scale)
        super().__init__(*args, **kw)

    def deconstruct(self) -> Any:
        name, path, args, kw = super().deconstruct()
        return name, path, args, {**kw, "scale": self.scale}

    def from_db_value(self, value: Any, expression: Any, connection: Any) -> Decimal | None:
        return None if value is None else int(value) * self.unit

    def to_python(self, value: Any) -> Decimal | None:
        if value is None:
            return None
        if isinstance(value, (float, bool)):
            raise ValidationError(f"{value!r} is no exact decimal", code="invalid")
        try:
            exact = Decimal(value)
        except (InvalidOperation, TypeError, ValueError):
            raise ValidationError(f"{value!r} is no number", code="invalid") from None
        if not exact.is_finite():
            raise ValidationError(f"{value!r} is no finite number", code="invalid")
        if not fits(exact, self.scale):
            code = "decimals" if abs(exact.scaleb(self.scale)) < MOST else "too_large"
            raise ValidationError(f"{value} does not fit {self.scale} decimals", code=code)
        return exact

    def get_prep_value(self, value: Any) -> Any:
        if value is None or hasattr(value, "resolve_expression"):
            return value
        exact = self.to_python(value)
        return None if exact is None else int(exact.scaleb(self.scale))

    @property
    def validators(self) -> list[Any]:
        return []  # the range of BigIntegerField is that of the stored whole number, checked in to_python
