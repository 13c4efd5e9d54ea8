"""Seeded faults: mistakes made on purpose, to see that the tests notice each of them.

A file `*.toml` for each calculation, and one for each part of what writes, permits and shows. `tests` names what should
notice (arguments of pytest, or of vitest where they end in `.ts`); every `[[fault]]` says in plain words what is wrong
and replaces `text`, which stands exactly once in `file`, with `becomes`. A fault that no test can notice says why under
`equivalent`; one that its tests notice by never ending names the loop under `endless`. Run by `make faults`.
"""
