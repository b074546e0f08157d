"""Tests of the published tables and their loader."""
