"""Tasks, due dates and changes from the ledger."""
