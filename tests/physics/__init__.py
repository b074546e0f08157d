"""Tests of the shared physics."""
