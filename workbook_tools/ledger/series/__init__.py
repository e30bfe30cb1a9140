"""The ledger as it stood on a day, as tables and arrays: what the estimates are made from."""
