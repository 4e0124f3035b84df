"""Asks a program, and keeps what it answered: exit code, both outputs, files that are other than before."""

import os
import shutil
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

LONGEST_S = 300
KEPT_FOR_SPEED = "site/cache/"  # no answer depends on it


@dataclass(frozen=True)
class Program:
    path: str
    models: str = ""   # empty: those it finds by itself
    threads: int = 1

    def environment(self):
        environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "HOME": "/nonexistent", "TZ": "UTC"}
        return environment | ({"GRAFTCAST_MODELS": self.models} if self.models else {})


def lay_out(folder, files):
    for name, text in files.items():
        path = folder / "site" / name
        if text is None:
            path.unlink(missing_ok=True)
            continue
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode("utf-8", "surrogateescape"))


def text_of(content):
    return content.decode("utf-8", "surrogateescape")


def files_in(folder):
    files = {}
    for path in sorted(folder.rglob("*")):
        name = str(path.relative_to(folder))
        if path.is_file() and not name.startswith(KEPT_FOR_SPEED):
            files[name] = text_of(path.read_bytes())
    return files


def changed_files(folder, laid_out):
    """Files that are new or other than they were; None for those that are gone."""
    before = {f"site/{name}": text for name, text in laid_out.items() if text is not None}
    after = files_in(folder)
    changed = {name: text for name, text in after.items() if before.get(name) != text}
    return changed | {name: None for name in before if name not in after}


def answer_in(folder, program, case, question):
    command = [program.path, "--site", "site"]
    command += ["--at", question.at] if question.at else []
    command += ["--members", str(case.members)] if case.members else []
    command += ["--threads", str(program.threads), *question.arguments]
    try:
        ended = subprocess.run(command, cwd=folder, env=program.environment(), input=question.stdin.encode(),
                               capture_output=True, timeout=LONGEST_S, check=False)
    except subprocess.TimeoutExpired:
        return {"exit_code": "none in time", "stdout": "", "stderr": ""}
    return {"exit_code": ended.returncode, "stdout": text_of(ended.stdout), "stderr": text_of(ended.stderr)}


def answer_of_copy(folder, program, case, question):
    """In a folder of its own, whose files are looked at afterwards."""
    files = case.files | question.changes
    lay_out(folder, files)
    answer = answer_in(folder, program, case, question)
    answer["files"] = changed_files(folder, files)
    shutil.rmtree(folder)
    return answer


def answers_of(program, case):
    """One for each question, and one more: what those that only read have changed, which is nothing."""
    with tempfile.TemporaryDirectory(prefix="answers-") as name:
        shared, copy = Path(name) / "read", Path(name) / "copy"
        lay_out(shared, case.files)
        answers = [answer_of_copy(copy, program, case, question) if question.writes or question.changes
                   else answer_in(shared, program, case, question) for question in case.questions]
        return answers + [{"exit_code": 0, "stdout": "", "stderr": "", "files": changed_files(shared, case.files)}]
