"""Where a home battery may hang: distances, working space, garages, floods and earthquakes."""
