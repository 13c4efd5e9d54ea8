"""Turns rows and results into answers and sentences: quote, figures, margin, customer's page. Decides nothing."""
