"""Drills: tests that take too long for every run. `make drills` runs the long forms (marker `drill`).

* A whole installation in processes of its own, under load, and then something bad happens to it: backups, `kill -9`.
  Such a drill takes the `installation` fixture (a copy of one that is migrated and filled once) and writes to it
  through `Visitor`.
* Races for one row (`test_races.py`): a new race is a function in `RACES` of `quote_races.py` or `floor_races.py`.
* Generated requests to every operation of the API (`test_fuzzing.py`).

The short form of the first two runs with the other tests.
"""
