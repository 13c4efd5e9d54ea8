"""Compresses answers: a pull list of 300 lines is 84 kB uncompressed.

Compressing a secret together with text that an attacker chooses reveals it through the length (BREACH). Django pads
each answer and masks the CSRF token in each. The one answer with a lasting secret, a new link's address, is not
compressed, and neither is a PDF, which is compressed already.
"""

from django.http import HttpRequest, HttpResponseBase
from django.middleware.gzip import GZipMiddleware

AS_THEY_ARE = ("application/pdf", "image/")


class Compression(GZipMiddleware):
    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        if getattr(response, "holds_a_secret", False) or response.get("Content-Type", "").startswith(AS_THEY_ARE):
            return response
        return super().process_response(request, response)
