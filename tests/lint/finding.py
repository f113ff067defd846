# SPDX-License-Identifier: MIT
"""What a check finds, and the list of findings that are still allowed."""

import dataclasses


@dataclasses.dataclass(frozen=True, order=True)
class Finding:
    path: str  # from the project's folder
    line: int
    rule: str
    name: str  # what it is about: a function, a class, a header
    message: str

    def key(self):
        """What a line of allowed.txt says; it holds no line number, so that it lasts."""
        return f"{self.rule} {self.path} {self.name}"

    def __str__(self):
        return f"{self.path}:{self.line}: {self.message} [{self.rule}]"


def not_allowed(findings, allowed):
    """The findings that no line allows, and one for each line that allows nothing any more."""
    keys = {finding.key() for finding in findings}
    stale = [Finding("tests/lint/allowed.txt", number, "allowed", line,
                     f"'{line}' is no longer needed: take it out")
             for number, line in enumerate(allowed, start=1) if is_entry(line) and line not in keys]
    return sorted([finding for finding in findings if finding.key() not in allowed] + stale)


def shrunk(findings, allowed):
    """The lines without those that are no longer needed."""
    keys = {finding.key() for finding in findings}
    return [line for line in allowed if not is_entry(line) or line in keys]


def is_entry(line):
    return bool(line) and not line.startswith("#")
