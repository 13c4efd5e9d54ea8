"""Rows to the input of a calculation, one query for each kind of row, and rows found by what people type."""
