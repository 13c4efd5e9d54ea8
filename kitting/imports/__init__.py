"""Files of kits and consumables: kinds over the engine of shop.imports, whose docstring states their contract."""
