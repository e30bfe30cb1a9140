"""How good the estimates of past days were, on the keeper's own log."""
