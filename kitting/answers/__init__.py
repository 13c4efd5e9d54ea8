"""What the API answers about kits, pull lists, counting, orders and readiness."""
