"""The conductors of a circuit, from its current, its place and its length."""
