"""Words of the trade as keepers write them; imports nothing of the package."""
