"""Answers of the API about kits, pull lists, counting, orders and readiness."""
