"""Kinds of file for kits and consumables, over the engine in shop.imports, whose docstring states their contract."""
