"""Server-rendered pages for the customer: no script, no sign-in, the link's secret in a cookie of its own path."""
