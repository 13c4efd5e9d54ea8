"""The web server: the limits of a connection, and how the server starts and stops."""
