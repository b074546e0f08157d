"""Units in, rounding out: the only room that knows pint.

``units`` turns a text with a unit into a number of a field's stated unit, ``fields`` declares
quantity fields of requests and answers, ``encoder`` rounds and writes every answer.
"""
