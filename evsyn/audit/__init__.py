"""Where a unit's own counts stand against pooled evidence."""
