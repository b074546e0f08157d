"""Builds the Dockerfile and runs the image, on a machine that has no container engine."""
