"""Sheets of the report as data, and the one writer that draws them."""
