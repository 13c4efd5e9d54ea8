"""Seeded faults: mistakes made in the calculations on purpose, to see that the tests notice each of them.

A file `*.toml` a calculation. `tests` names what should notice (arguments of pytest, or of vitest where they end in
`.ts`); every `[[fault]]` says in plain words what is wrong and replaces `text`, which stands exactly once in `file`,
with `becomes`. A fault that no test can notice says why under `equivalent`. Run by `make faults`.
"""
