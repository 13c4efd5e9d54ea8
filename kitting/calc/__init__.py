"""Pure calculations of kitting: frozen inputs to frozen results, no Django, no clock, no float."""
