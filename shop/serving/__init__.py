"""The web server: what a connection may cost, and how the server starts and stops."""
