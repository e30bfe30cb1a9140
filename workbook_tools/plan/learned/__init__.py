"""What is learned of each bin: from the ledger's arrays through the estimates to records with dates."""
