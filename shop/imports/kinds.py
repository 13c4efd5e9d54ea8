"""The base app's kinds of file. Importing this module registers them."""

from shop.imports import customers, labour, rules, vehicles

__all__ = ["customers", "labour", "rules", "vehicles"]
