"""Tables of handbooks and standards: data files with source headers, and how to cite them."""

from service.published.errors import DataFileError
from service.published.loader import data_edition, load, resolve, table_names
from service.published.source import Source, Standing, weakest
from service.published.table import Table

__all__ = [
    "DataFileError",
    "Source",
    "Standing",
    "Table",
    "data_edition",
    "load",
    "resolve",
    "table_names",
    "weakest",
]
