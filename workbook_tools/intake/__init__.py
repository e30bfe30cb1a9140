"""Open a keeper's workbook safely, find its tables and headings, turn cells into values."""
