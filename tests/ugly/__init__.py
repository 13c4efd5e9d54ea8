"""Files as suppliers lay them out, invented here, each with what must be read, asked and refused of it."""
