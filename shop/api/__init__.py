"""The HTTP API: endpoints, what they read and how they refuse, OpenAPI, renderers, middleware. Only `shop` has it."""
