"""The HTTP API: endpoint base, parameters, problems, OpenAPI, renderers, middleware. Only `shop` has this layer."""
