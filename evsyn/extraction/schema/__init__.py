"""What each kind of file may hold, as JSON Schema, so that editors complete and underline."""
