"""Shapes of requests: what they take is checked here, and OpenAPI reads them."""
