"""What is frozen and printed: the text of a sent revision, and the paper made from it."""
