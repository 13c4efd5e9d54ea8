"""Files of kits and consumables: kinds over the engine of shop.imports, whose docstring says what they have to do."""
