"""What the users of the service do with it, over its real application."""
