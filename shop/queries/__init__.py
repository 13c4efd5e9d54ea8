"""Reads rows for calculations, one query for each kind of row, and searches rows by what people type."""
