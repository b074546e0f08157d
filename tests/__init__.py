"""Tests of the Backup Power Design Service; the folders mirror those of the package `service`."""
