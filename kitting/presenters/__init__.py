"""Rows as the API shows them. Pure shaping of what has been loaded, or one query and one function for hot lists."""
