"""Tests of the web part, with operations that calculate nothing."""
