"""Surge feasibility: whether a source starts the motors and carries what runs beside them."""
