"""One module a sheet: its first line, columns and rows as data."""
