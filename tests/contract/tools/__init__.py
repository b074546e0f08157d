"""Tools that judge the published contract against a running server."""
