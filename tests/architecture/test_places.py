"""Nothing in the tree depends on a machine or names a host."""

import re
from pathlib import Path

from tests.architecture.source_tree import files, named

#: Texts that other people wrote and that stand as they are.
VERBATIM = re.compile(r"^(LICENSE|NOTICE)")
#: Hosts that stand for this machine, or for none.
NOWHERE = re.compile(
    r"https?://(127\.0\.0\.1|localhost|0\.0\.0\.0|\[::1\]|testserver|example\.(com|org)|service)\b"
)
NAMESPACE = re.compile(r"https?://(www\.w3\.org|json-schema\.org|naesb\.org)/")
URL = re.compile(r"https?://[A-Za-z0-9.\-\[\]:]+[/\w.]*")
#: Folders of one machine. `/home/...` is also a JSON Pointer of ours, so it is not among them.
MACHINE = re.compile(r"(?<![\w.}/])/(?:wo" r"rk|root|Users|opt|mnt|tmp)/[\w.]")
#: Folder of files inside the container of the Dockerfile, and of its tests.
CONTAINER = re.compile(r"^(Dockerfile|deploy/|tests/container/)")


def texts() -> list[tuple[str, str]]:
    found = []
    for path in files():
        if VERBATIM.match(path.name):
            continue
        try:
            found.append((named(path), path.read_text("utf-8")))
        except UnicodeDecodeError:
            assert path.suffix in (".gz", ".npy", ".png", ".ico"), named(path)
    return found


def test_no_file_names_a_host() -> None:
    for name, text in texts():
        for url in URL.findall(text):
            assert NOWHERE.match(url) or NAMESPACE.match(url), f"{name}: {url}"


def test_no_file_names_a_folder_of_one_machine() -> None:
    for name, text in texts():
        if not CONTAINER.match(name):
            assert MACHINE.search(text) is None, f"{name}: {MACHINE.search(text)}"


def test_the_service_opens_no_file_by_an_absolute_path() -> None:
    opening = re.compile(r"(?:open|Path)\(\s*[\"']/")
    for name, text in texts():
        if name.startswith("service/"):
            assert not opening.search(text), name


def test_the_tree_is_read() -> None:
    assert Path("service/check.py").as_posix() in [named(path) for path in files()]
