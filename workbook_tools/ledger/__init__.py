"""Frozen records of bins and entries that know their cell, and the checks on them."""
