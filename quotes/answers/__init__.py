"""What the API answers about quotes."""
