"""Pure calculations of the base app: frozen inputs to frozen results, no Django, no clock, no float."""
