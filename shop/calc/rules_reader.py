"""Reads the fields of stored price rules by dotted path, and names the field that it refuses."""

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from typing import Any, NoReturn, TypeVar

from shop.calc.errors import CalculationError

Kind = TypeVar("Kind")
ONE = Decimal(1)
MISSING: Any = object()


class RulesReader:
    """Reads fields of nested JSON by dotted path. Errors name the path."""

    def __init__(self, content: Mapping[str, Any], path: str) -> None:
        self._content, self._path = content, path

    def value(self, path: str, default: Any = MISSING) -> Any:
        value: Any = self._content
        for name in path.split("."):
            if not isinstance(value, Mapping | None):
                return self.refuse(path.rpartition(".")[0], repr(value))
            if value is None or name not in value:
                return default if default is not MISSING else self.refuse(path, "missing")
            value = value[name]
        return value

    def has(self, path: str) -> bool:
        return self.value(path, None) is not None

    def number(self, path: str, default: str = MISSING) -> Decimal:
        return self._decimal(path, self.value(path, default))

    def above_zero(self, path: str, default: str) -> Decimal:
        number = self.number(path, default)
        return number if number else self.refuse(path, str(number))

    def share(self, path: str, default: str) -> Decimal:
        share = self.number(path, default)
        return share if share <= ONE else self.refuse(path, str(share))

    def number_or_none(self, path: str) -> Decimal | None:
        value = self.value(path, None)
        return None if value is None else self._decimal(path, value)

    def step_or_none(self, path: str, allowed: tuple[Decimal, ...]) -> Decimal | None:
        step = self.number_or_none(path)
        return step if step is None or step in allowed else self.refuse(path, str(step))

    def numbers(self, path: str, default: Any = MISSING) -> dict[str, Decimal]:
        return {key: self._decimal(f"{path}.{key}", value) for key, value in self._map(path, default).items()}

    def text(self, path: str, default: str = MISSING) -> str:
        return self._typed(path, self.value(path, default), str)

    def texts(self, path: str) -> dict[str, str]:
        return {key: self._typed(f"{path}.{key}", value, str) for key, value in self._map(path, {}).items()}

    def named(self, path: str, allowed: tuple[str, ...]) -> dict[str, str]:
        """Maps names to one of the allowed words each."""
        words = self.texts(path)
        for name, word in words.items():
            if word not in allowed:
                self.refuse(f"{path}.{name}", word)
        return words

    def lines(self, path: str) -> tuple[str, ...]:
        lines = self._typed(path, self.value(path, []), list)
        return tuple(self._typed(f"{path}[{i}]", line, str) for i, line in enumerate(lines))

    def objects(self, path: str, default: Any = MISSING) -> list["RulesReader"]:
        rows = self._typed(path, self.value(path, default), list)
        return [RulesReader(self._typed(f"{path}[{i}]", row, dict), f"{path}[{i}].") for i, row in enumerate(rows)]

    def sentences(self, path: str) -> list["RulesReader"]:
        """Objects with a `text`. A plain string stands for one with nothing else."""
        rows = self._typed(path, self.value(path, []), list)
        objects = [{"text": row} if isinstance(row, str) else row for row in rows]
        return [RulesReader(self._typed(f"{path}[{i}]", row, dict), f"{path}[{i}].") for i, row in enumerate(objects)]

    def whole(self, path: str, default: int, most: int | None = None) -> int:
        value = self._typed(path, self.value(path, default), int)
        fits = value >= 0 and (most is None or value <= most) and not isinstance(value, bool)
        return value if fits else self.refuse(path, str(value))

    def whole_or_none(self, path: str) -> int | None:
        return None if self.value(path, None) is None else self.whole(path, 0)

    def flag(self, path: str) -> bool:
        return self._typed(path, self.value(path, False), bool)

    def one_of(self, path: str, allowed: tuple[str, ...], default: str = MISSING) -> str:
        value = self.value(path, default)
        return str(value) if value in allowed else self.refuse(path, str(value))

    def _map(self, path: str, default: Any) -> dict[str, Any]:
        return self._typed(path, self.value(path, default), dict)

    def _typed(self, path: str, value: Any, kind: type[Kind]) -> Kind:
        return value if isinstance(value, kind) else self.refuse(path, repr(value))

    def _decimal(self, path: str, value: Any) -> Decimal:
        """A finite number >= 0 from a string: a JSON number would already have been a float."""
        try:
            number = Decimal(self._typed(path, value, str))
        except InvalidOperation:
            return self.refuse(path, repr(value))
        return number if number.is_finite() and number >= 0 else self.refuse(path, str(value))

    def refuse(self, path: str, problem: str) -> NoReturn:
        raise CalculationError("bad_rules", f"{self._path}{path}: {problem}")
