"""How hot the sun and the air make a unit, and what power and energy that leaves."""
