# SPDX-License-Identifier: MIT
"""Looks at the sources and says what is not in the project's style. Exit 1 where something is.

usage: lint.py PROJECT BUILD [--shrink]
BUILD holds compile_commands.json. --shrink takes lines that are no longer needed out of
allowed.txt; it never adds one.
"""

import pathlib
import subprocess
import sys
import time

from finding import not_allowed, shrunk
from includes import include_findings, without_source
from sizes import names, sizes
from tags import tags_of
from tidy import tidy_findings

HERE = pathlib.Path(__file__).parent
ALLOWED = HERE / "allowed.txt"


def sources_of(root):
    return sorted(str(path.relative_to(root)) for folder in ("src", "tests")
                  for path in (root / folder).rglob("*") if path.suffix in (".h", ".cpp"))


def compile_alone(root, headers):
    for header in headers:
        subprocess.run(["clang++", "-std=c++20", "-fsyntax-only", "-Wno-pragma-once-outside-header",
                        "-Isrc", "-x", "c++", header], cwd=root, check=True)


def main(root, build, *options):
    started = time.monotonic()
    paths = sources_of(root)
    of_src = [path for path in paths if path.startswith("src/")]
    tags = tags_of(root, paths)
    if not of_src or not tags:
        raise RuntimeError("no sources were read: the check itself is broken")
    compile_alone(root, without_source(of_src))
    tidied, looked_at = tidy_findings(root, build, [path for path in of_src if path.endswith(".cpp")])
    findings = {*tidied, *sizes(root, tags, paths), *names(tags),
                *include_findings(root, of_src, tags, HERE / "std_names.txt")}
    allowed = ALLOWED.read_text().splitlines()
    if "--shrink" in options:
        allowed = shrunk(findings, allowed)
        ALLOWED.write_text("".join(line + "\n" for line in allowed))
    left = not_allowed(findings, allowed)
    for finding in left:
        print(finding)
    print(f"lint: {len(paths)} files, {looked_at} of them new to clang-tidy, "
          f"{time.monotonic() - started:.0f} s, {len(left)} to mend")
    return 1 if left else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]), *sys.argv[3:]))
