"""HTTP in, HTTP out: rows through access, effects through services, nothing decided here."""
