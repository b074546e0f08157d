"""One request answered: shade and colour are tried only where they are shown."""

from __future__ import annotations

import numpy as np

from service.check import BRIEF, Includes
from service.checks.heat_exposure.answer import HeatExposureAnswer
from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.explain import explain
from service.checks.heat_exposure.request import HeatExposureRequest


def run(request: HeatExposureRequest, includes: Includes) -> HeatExposureAnswer:
    """Return the answer to a request."""
    with np.errstate(all="ignore"):
        found = columns(**arguments([request], remedies=includes != BRIEF))
    return explain(request, found, 0, includes)
