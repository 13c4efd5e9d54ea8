"""Drills: a whole installation in processes of its own, under load, and then something bad happens to it.

`make drills` runs the long forms (marker `drill`); the short form of each runs with the other tests. A new drill takes
the `installation` fixture (a copy of one that is migrated and filled once) and writes to it through `Visitor`.
"""
