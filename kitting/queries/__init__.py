"""Rows to the input of a calculation, one query for each kind of row whatever their number."""
