"""Rows and results to answers and sentences: quote, figures, margin, customer's page. Nothing is decided here."""
