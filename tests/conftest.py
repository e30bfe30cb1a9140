"""Seeds are fixed: every run draws the same examples, so that a failure is one of the code and not of the day."""

from hypothesis import settings

settings.register_profile("fixed", derandomize=True, deadline=None)
settings.load_profile("fixed")
