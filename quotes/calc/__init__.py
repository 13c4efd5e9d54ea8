"""Pure calculations of quotes: frozen inputs to frozen results, no Django, no clock, no float."""
