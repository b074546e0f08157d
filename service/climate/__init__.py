"""Typical years. The room holds no data file yet."""

from importlib.resources import files


def data_files() -> tuple[str, ...]:
    """Return the names of this room's data files, which the data edition covers.

    Returns
    -------
    tuple of str
        Sorted; empty as long as no typical year ships.

    Notes
    -----
    Source: the files that ship with the service.
    """
    names = (entry.name for entry in files(__package__).iterdir())
    return tuple(sorted(name for name in names if name.endswith((".csv", ".csv.gz"))))
