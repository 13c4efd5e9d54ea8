"""This app's kinds of file. Importing this module registers them."""

from kitting.imports import consumables, kit, suppliers

__all__ = ["consumables", "kit", "suppliers"]
