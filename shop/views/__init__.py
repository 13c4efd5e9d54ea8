"""HTTP in, HTTP out: views get rows from access and write through services."""
