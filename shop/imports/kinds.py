"""The kinds of file of the base app; importing them registers them."""

from shop.imports import customers, labour, rules, vehicles

__all__ = ["customers", "labour", "rules", "vehicles"]
