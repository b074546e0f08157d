"""Tests of the climate room."""
