"""Tests of where a home battery may hang."""
