"""Parts, consumables, kits, pull lists and counting. May import shop, never quotes."""
