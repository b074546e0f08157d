"""The home's own meter data: read, cleaned, and handed back as one year to pass on."""

from service.load_profile.operation import LOAD_PROFILE

__all__ = ["LOAD_PROFILE"]
