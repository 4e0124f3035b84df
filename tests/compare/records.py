"""Answers kept in a folder, with the questions and the site's files, so that they can be put again to a later program
even when the sites are drawn otherwise by then: a gzipped JSON file a case."""

import gzip
import json

from case import Case


def keep(folder, case, answers):
    content = json.dumps({"case": case.to_json(), "answers": answers})
    # Without a time in it: the same answers are the same bytes.
    (folder / f"{case.name}.json.gz").write_bytes(gzip.compress(content.encode(), 6, mtime=0))


def kept_names(folder):
    return sorted(path.name.removesuffix(".json.gz") for path in folder.glob("*.json.gz"))


def kept(folder, name):
    """The case and its answers."""
    content = json.loads(gzip.decompress((folder / f"{name}.json.gz").read_bytes()))
    return Case.from_json(content["case"]), content["answers"]
