"""Independent references that the tests compare with."""
