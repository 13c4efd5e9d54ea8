"""Rows of a quote to the input of its calculation, and the calculation's result: price and promise."""
