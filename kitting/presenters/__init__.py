"""Answers from loaded rows. A list that is read often has one query and one function of its own."""
