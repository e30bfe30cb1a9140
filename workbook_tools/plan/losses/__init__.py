"""Losses: bins that lose more than is usual, alone or together, and what to look at first."""
