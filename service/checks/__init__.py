"""One folder a check; no check knows another."""
