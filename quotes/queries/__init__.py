"""Reads the input of a quote's calculations from rows, and returns their results: price and promise."""
