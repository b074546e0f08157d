"""Tests of the dated code editions."""
