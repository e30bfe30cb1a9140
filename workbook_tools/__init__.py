"""Read an isopod keeper's own workbook and write a report workbook of what is due and what has changed."""
