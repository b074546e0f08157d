"""Benchmarks over loopback; they need the runtime dependencies alone.

Run one with ``python -m tests.benchmarks.<name>``.
"""
