"""Prints HTML of our own templates as PDF/A-3a. Each app's `documents/` prepares its own papers."""
