"""From reports to what is seen: lines, tables, JSON. Nothing is decided here."""
