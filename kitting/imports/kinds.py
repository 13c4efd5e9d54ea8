"""This app's kinds of file. Importing this module registers them."""

from kitting.imports import consumables, kit, kits, suppliers

__all__ = ["consumables", "kit", "kits", "suppliers"]
