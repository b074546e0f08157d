"""The words of the contract that belong to no single operation."""

from __future__ import annotations

TITLE = "Backup Power Design Service"

DESCRIPTION = """\
Stateless calculations that decide whether a home can be backed up by a battery, and how.

**Answers.** Every check answers 200 with a `verdict`, worst first: `fail`, `undetermined`, \
`conditional`, `pass`. Unknown input never yields `pass`. The same request under the same release \
gives the same bytes; `Answer-Digest` is their SHA-256 without `reference`. Answers may gain \
fields within `/v1`: ignore those you do not know.

**Quantities.** A bare number is in the unit the field states (`x-unit`); a text carries its own \
unit, such as `"30 m"`. Answers are plain numbers in the unit of the field's name, rounded to \
`x-decimals`.

**Facts.** A field with `x-question` may be absent (unknown), a bare value, or an object tagged \
`as`: `range`, `one_of`, `coarse` or `unknown`. `/v1/reference/facts` lists them all with their \
questions.

**Requests.** Fields that the contract does not know are refused, and so are unknown or repeated \
query parameters. JSON by default; `application/vnd.msgpack` by `Content-Type` and `Accept`.

**Problems.** Every refusal is a problem document (RFC 9457) that lists every bad field at once \
by JSON Pointer with its remedy. An unknown path answers 404, another method 405 with `Allow`. \
HEAD stands beside every GET. Calculations are pure, so any request may be sent again."""

#: Tags of the contract in the order it lists them, each with its description.
TAGS = {
    "assessment": "The whole job: the checks composed for one site and its candidate units.",
    "checks": "One question of the design each, answered on its own.",
    "reference": "What a form is filled from. Each has a strong ETag.",
    "service": "Health, metrics, and this contract.",
}
