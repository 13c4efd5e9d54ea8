"""Files imported completely or not at all. `engine` reads, `kinds` lists the kinds of file of this app.

The contract of a kind: `tables` and `title` say what may be in the file, `plan(reading) -> Planned` is pure,
`check(actor, plan) -> Planned` compares with the shop and writes nothing, `take_in(actor, plan, day)` writes inside the
caller's transaction. Everything but the kinds knows no Django.
"""
