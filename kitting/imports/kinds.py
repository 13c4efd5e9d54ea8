"""This app's kinds of file. Importing this module registers them."""

from kitting.imports import consumables, kit, kits, packing_slip, suppliers

__all__ = ["consumables", "kit", "kits", "packing_slip", "suppliers"]
