"""The gate to the one thread for slow work: bounded in places and in predicted time.

Work predicted above `INLINE` leaves the event loop, so that a small request beside it is answered
at once. One thread, because calculations share the interpreter: a second would only stretch both.
"""

from __future__ import annotations

import asyncio
import math
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from service.http.problem import busy

T = TypeVar("T")

#: Predicted work above this leaves the event loop [ms].
INLINE = 20.0
#: Predicted work that may be held at once, so that the last in line is answered in time [ms].
_BACKLOG = 1_700.0


class Gate:
    """Admits slow work while there is a place and time for it.

    Parameters
    ----------
    places : int
        Requests that may run or wait at once.
    """

    def __init__(self, places: int) -> None:
        self._places = places
        self._held = 0
        self._backlog = 0.0
        self.shed = 0
        self._thread = ThreadPoolExecutor(max_workers=1, thread_name_prefix="slow-work")

    async def run(self, predicted: float, work: Callable[[], T]) -> T:
        """Return what `work` returns, run on the thread.

        Parameters
        ----------
        predicted : float
            Time it is expected to take [ms].
        work : callable
            The calculation.

        Raises
        ------
        Problem
            There is no room: 503 with the time to wait.
        """
        if predicted <= INLINE:
            return work()
        full = self._held >= self._places
        if full or (self._held and self._backlog + predicted > _BACKLOG):
            self.shed += 1
            seconds = max(1, math.ceil(self._backlog / 1000.0))
            raise busy("Other large requests are being calculated; send this one again.", seconds)
        self._held += 1
        self._backlog += predicted
        try:
            return await asyncio.get_running_loop().run_in_executor(self._thread, work)
        finally:
            self._held -= 1
            self._backlog -= predicted

    def close(self) -> None:
        """Let the running work end and start no more."""
        self._thread.shutdown(wait=False, cancel_futures=True)
