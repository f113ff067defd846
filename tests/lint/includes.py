# SPDX-License-Identifier: MIT
"""Each file includes the standard headers whose names it uses, and nothing it does not use; each
header compiles alone, since its own .cpp includes it first."""

import collections
import functools
import pathlib
import re

from finding import Finding

INCLUDE = re.compile(r'^#include\s+(?:<([^>]+)>|"([^"]+)")(\s*//)?', re.MULTILINE)
STD_NAME = re.compile(r"\b(std::)(?:ranges::)?([a-z_0-9]+)")
FREE_WORD = re.compile(r"(?<![\w:.>])(?:::)?([A-Za-z_]\w*)")
WORD = re.compile(r"([A-Za-z_]\w*)")
# Comments, raw strings, strings and characters: nothing in them is used.
NOT_CODE = re.compile(r'//[^\n]*|/\*.*?\*/|R"(\w*)\(.*?\)\1"|"(?:\\.|[^"\\\n])*"|'
                      r"(?<!\w)'(?:\\.|[^'\\\n])+'", re.DOTALL)


class Source:
    """What one file includes and which words it uses."""

    def __init__(self, root, path):
        text = (pathlib.Path(root) / path).read_text()
        self.path = path
        self.system, self.ours = {}, {}  # name -> line
        self.explained = set()  # those with a remark behind them, which says what they are for
        for match in INCLUDE.finditer(text):
            line = text.count("\n", 0, match.start()) + 1
            if match[3]:
                self.explained.add(match[1] or match[2])
            if match[1]:
                self.system[match[1]] = line
            else:
                self.ours[match[2]] = line
        code = re.sub(r"^#include.*", "", text, flags=re.MULTILINE)
        code = NOT_CODE.sub(lambda match: "\n" * match[0].count("\n"), code)
        code = code.replace("<=>", " std::strong_ordering ")
        self.words = first_lines(WORD, code)
        # "std::chrono::days" is std::chrono, "std::ranges::find" std::find, "EINTR" itself
        self.names = first_lines(STD_NAME, code) | first_lines(FREE_WORD, code)


def first_lines(pattern, code):
    lines = {}
    for number, line in enumerate(code.splitlines(), start=1):
        for match in pattern.finditer(line):
            lines.setdefault("".join(match.groups()), number)
    return lines


class StandardHeaders:
    """The table std_names.txt."""

    def __init__(self, table):
        self.asked, self.welcome = {}, {}  # header -> pattern of its names
        for line in pathlib.Path(table).read_text().splitlines():
            if line and not line.startswith("#"):
                header, words = line.split(": ", 1)
                names = [word[1:] if word.startswith("=") else f"std::(?:{word.lstrip('?')})"
                         for word in words.split()]
                self.welcome[header] = re.compile("|".join(names))
                self.asked[header] = re.compile("|".join(
                    name for name, word in zip(names, words.split()) if not word.startswith("?")))
        self.givers_of = functools.cache(self.givers_of)

    def givers_of(self, name):
        """The headers that give the name, any of which must be included."""
        return [header for header, names in self.asked.items() if names.fullmatch(name)]

    def is_used(self, header, names):
        return any(self.welcome[header].fullmatch(name) for name in names)


def include_findings(root, paths, tags, table):
    sources = {path: Source(root, path) for path in paths}
    standard = StandardHeaders(table)
    declared = declared_names(tags)
    for source in sources.values():
        own = own_header(source.path, sources)
        yield from missing_standard(source, own and sources[own], standard)
        yield from unused_standard(source, standard)
        yield from unused_of_ours(source, own, declared)
        yield from not_alone(source, sources)


def own_header(path, sources):
    """src/base/date.cpp: src/base/date.h, where there is one."""
    header = re.sub(r"\.cpp$", ".h", path)
    return header if header != path and header in sources else None


def missing_standard(source, own, standard):
    included = set(source.system) | set(own.system if own else ())
    for name, line in source.names.items():
        givers = standard.givers_of(name)
        if givers and not included.intersection(givers):
            included.add(givers[0])  # one report is enough
            yield Finding(source.path, line, "include", givers[0],
                          f"uses {name} and does not include <{'> or <'.join(givers)}>")


def unused_standard(source, standard):
    for header, line in source.system.items():
        if header in source.explained:
            continue
        if header not in standard.welcome:
            if "/" not in header and "." not in header:
                yield Finding(source.path, line, "include", header,
                              f"<{header}> is not in tests/lint/std_names.txt")
        elif not standard.is_used(header, source.names):
            yield Finding(source.path, line, "include", header, f"<{header}> is not used")


def declared_names(tags):
    """Header as it is included ("base/date.h") -> every name it declares, members too."""
    names = collections.defaultdict(set)
    for tag in tags:
        if tag["path"].endswith(".h") and tag["kind"] not in ("local", "parameter", "namespace"):
            names[re.sub(r"^(src|tests)/", "", tag["path"])].add(tag["name"])
    return names


def unused_of_ours(source, own, declared):
    for header, line in source.ours.items():
        if header in source.explained or own and own.endswith("/" + header):
            continue
        if declared[header] and not declared[header].intersection(source.words):
            yield Finding(source.path, line, "include", header, f'"{header}" is not used')


def not_alone(source, sources):
    """A header compiles alone if a .cpp that is compiled begins with it."""
    own = own_header(source.path, sources)
    if own and next(iter(source.ours), "") != re.sub(r"^(src|tests)/", "", own):
        yield Finding(source.path, 1, "include", own, f"{own} must be the first include")


def without_source(paths):
    """Headers of src/ that no .cpp of theirs proves to compile alone."""
    return [path for path in paths if path.startswith("src/") and path.endswith(".h")
            and re.sub(r"\.h$", ".cpp", path) not in paths]
