"""Paper: HTML of our own templates -> PDF/A-3a. Each app's `documents/` shapes what is printed; this only prints."""
