"""Reads the structure of a table: which rows are lines, where each one is packed, and what its cells mean.

A rule is a module of its own: a pure function from a block of rows to that block as the rule leaves it, with findings
on what it did and, where the rows can be read in two ways, one question for the whole column. Nothing here uses Django.
"""
