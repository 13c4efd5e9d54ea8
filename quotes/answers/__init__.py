"""Answers of the API about quotes."""
