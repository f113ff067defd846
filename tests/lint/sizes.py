# SPDX-License-Identifier: MIT
"""No class above 200 lines with what is defined outside it, no file of src/ above 400; and, where
clang-tidy does not look (tests/), no function above 60 and names in the project's style."""

import collections
import pathlib
import re

from finding import Finding

MOST_LINES = {"function": 60, "class": 200, "struct": 200}  # functions: as .clang-tidy says
MOST_LINES_OF_A_FILE = 400  # of src/: tests are tables of cases, which may be long

SNAKE = re.compile(r"[a-z][a-z0-9_]*$")
PASCAL = re.compile(r"[A-Z][A-Za-z0-9]*$")
SNAKE_OR_CONSTANT = re.compile(r"([a-z][a-z0-9_]*|k[A-Z][A-Za-z0-9]*)$")
STYLE = {"class": PASCAL, "struct": PASCAL, "enum": PASCAL, "typedef": PASCAL,
         "enumerator": PASCAL, "namespace": SNAKE, "member": SNAKE_OR_CONSTANT,
         "variable": SNAKE_OR_CONSTANT, "local": SNAKE_OR_CONSTANT, "parameter": SNAKE,
         "function": SNAKE}
# Made by GoogleTest's macros, overriding its virtual functions, or asked for by libFuzzer.
OF_A_LIBRARY = re.compile(r"(TEST|TEST_F|TEST_P|SetUp|TearDown|SetUpTestSuite|TearDownTestSuite|"
                          r"INSTANTIATE_TEST_SUITE_P|PrintTo|LLVMFuzzerTestOneInput)$")


def sizes(root, tags, paths):
    outside = lines_outside(tags)
    for tag in tags:
        lines = lines_of(tag)
        if tag["kind"] == "function":
            lines *= not tag["path"].startswith("src/")
        else:
            lines += outside[full_name(tag)]
        if lines > MOST_LINES.get(tag["kind"], lines):
            yield Finding(tag["path"], tag["line"], "size", tag["name"],
                          f"{tag['kind']} {tag['name']} has {lines} lines, "
                          f"more than {MOST_LINES[tag['kind']]}")
    for path in paths:
        lines = len((pathlib.Path(root) / path).read_bytes().splitlines())
        if path.startswith("src/") and lines > MOST_LINES_OF_A_FILE:
            yield Finding(path, lines, "size", "-",
                          f"{lines} lines in a file, more than {MOST_LINES_OF_A_FILE}")


def lines_of(tag):
    return tag.get("end", tag["line"]) - tag["line"] + 1


def full_name(tag):
    return "::".join(filter(None, (tag.get("scope"), tag["name"])))


def lines_outside(tags):
    """For each class the lines of its functions that are defined outside it."""
    bodies = collections.defaultdict(list)
    for tag in tags:
        if tag["kind"] in ("class", "struct"):
            bodies[full_name(tag)].append(tag)
    lines = collections.Counter()
    for tag in tags:
        its_class = tag.get("scope", "")
        inside = any(body["path"] == tag["path"] and body["line"] <= tag["line"] <= body["end"]
                     for body in bodies.get(its_class, []))
        if tag["kind"] == "function" and its_class in bodies and not inside:
            lines[its_class] += lines_of(tag)
    return lines


def names(tags):
    for tag in tags:
        style = STYLE.get(tag["kind"])
        if style is None or not tag["path"].startswith("tests/") or is_not_ours(tag):
            continue
        if not style.match(tag["name"]):
            yield Finding(tag["path"], tag["line"], "name", tag["name"],
                          f"{tag['kind']} '{tag['name']}' is not named in the project's style")


def is_not_ours(tag):
    """Operators, constructors and lambdas, what a library asks for, `struct stat x{}`, and what ctags
    takes for a name in a structured binding."""
    name = tag["name"]
    is_constructor = name == tag.get("scope", "").split("::")[-1]
    is_variable = tag["kind"] == "struct" and tag.get("end") == tag["line"] and name.islower()
    return (name.startswith(("operator ", "~", "&", "__anon")) or is_constructor or is_variable
            or OF_A_LIBRARY.match(name) is not None)
