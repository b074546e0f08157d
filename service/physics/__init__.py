"""Physics used by two parts or more: pure functions on arrays, SI in and SI out."""
