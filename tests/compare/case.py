"""What is asked of a program: a site folder's files, and the questions about it."""

from dataclasses import asdict, dataclass, field


@dataclass
class Question:
    command: str             # `morning`, `weather show`: what --only selects and the summary counts
    arguments: list          # all words but those of --site, --at and the program's settings
    at: str = ""             # --at; empty: not given
    stdin: str = ""
    changes: dict = field(default_factory=dict)  # file of the site: its text instead; None: no such file
    writes: bool = False     # gets a copy of the site of its own, whose files are compared afterwards

    def shown(self):
        """As one would type it in the folder above the site."""
        at = ["--at", self.at] if self.at else []
        changed = f"   (with another {', '.join(self.changes)})" if self.changes else ""
        return " ".join(["--site site", *at, *self.arguments]) + changed


@dataclass
class Case:
    name: str
    files: dict      # path in the site folder: text
    questions: list
    members: int = 0  # 0: as many as the program takes by itself

    def to_json(self):
        return asdict(self)

    @staticmethod
    def from_json(value):
        return Case(value["name"], value["files"], [Question(**question) for question in value["questions"]],
                    value["members"])
