"""Everything web-shaped that belongs to no single check.

A request passes ``connection`` (bounded heads), ``frame`` (request id, log, metrics), the router,
then ``endpoint``: ``media`` and ``query`` say what is asked, ``request_body`` reads, ``decoder``
turns bytes into the request struct or into every error at once, ``answering`` runs the operation
and writes its answer. ``problem`` is the one shape of every refusal.
"""
