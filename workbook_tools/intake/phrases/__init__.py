"""Phrases in free cells: cut into chunks of a known kind, and read as acts only where every chunk is accounted for."""
