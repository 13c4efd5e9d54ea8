"""Rows and results of calculations to answers and sentences. Nothing is decided here."""
