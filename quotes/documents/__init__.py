"""Documents: the frozen text of a sent revision, and the PDF printed from it."""
