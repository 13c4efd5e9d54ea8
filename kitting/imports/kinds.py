"""The kinds of file of this app; importing them registers them."""

from kitting.imports import consumables, kit

__all__ = ["consumables", "kit"]
