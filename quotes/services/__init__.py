"""All writes to quotes. Each begins with the lock of its Quote row."""
