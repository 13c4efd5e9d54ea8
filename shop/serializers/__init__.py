"""Serializers of request bodies: they check them, and OpenAPI reads them."""
