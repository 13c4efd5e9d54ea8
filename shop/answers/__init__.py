"""Answers of the API, a module a noun: one frozen struct each, returned by a presenter and sent as it is.

OpenAPI is read from the classes. The docstring is the component's description and `Meta(description=...)` a field's; an
enumeration is a component of its own, `X | None` may be null, and a field without a default is always there.
"""
