"""Settings that every test shares."""

from hypothesis import settings

# The same tree gives the same test run: examples are derived from the test itself, none is stored,
# and a slow machine fails no test by its clock.
settings.register_profile("repeatable", derandomize=True, database=None, deadline=None)
settings.load_profile("repeatable")
