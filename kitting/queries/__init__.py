"""Reads the input of calculations, with one query for each kind of row."""
