"""A pytest plugin: the same examples on every run, and no time spent on the smallest one that fails.

Loaded before the conftest files, whose own profiles keep what they do not name.
"""

from hypothesis import Phase, settings

settings.register_profile("faults", derandomize=True, database=None, phases=(Phase.explicit, Phase.generate))
settings.load_profile("faults")
