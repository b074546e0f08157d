"""The whole job: one site, its candidates, every check that exists."""

from service.assessment.operation import site_assessment

__all__ = ["site_assessment"]
