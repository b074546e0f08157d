"""Where a unit may hang, what must move, and how much way stays."""
