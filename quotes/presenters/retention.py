"""For how long records are kept, by the rules of a frozen text."""

from quotes.calc.forms import FrozenContent


def kept_years(document: FrozenContent) -> int:
    """The whole years for which records are kept; 0 where months are told, or where an older text says nothing."""
    return 0 if kept_months(document) else document["rules"].get("retention_years") or 0


def kept_months(document: FrozenContent) -> int:
    """The months for which records are kept; 0 where they are whole years."""
    months: int = document["rules"].get("retention_months", 0)
    return months if months % 12 else 0
