# SPDX-License-Identifier: MIT
"""clang-tidy over the .cpp files of src/, two at a time. What it said of a file is kept under
.build and serves again until the file, a header it draws in or the checks change."""

import concurrent.futures
import hashlib
import json
import pathlib
import re
import subprocess

from finding import Finding

COMPLAINT = re.compile(r"^(/.+?):(\d+):\d+: (?:warning|error): (.*) \[([\w.,-]+)\]$", re.MULTILINE)
OUR_INCLUDE = re.compile(r'^#include\s+"([^"]+)"', re.MULTILINE)
JOBS = 2


def tidy_findings(root, build, paths):
    """The findings, and how many files had to be looked at."""
    root, build = pathlib.Path(root).resolve(), pathlib.Path(build)
    store = build / "tidy.json"
    known = json.loads(store.read_text()) if store.exists() else {}
    digests = digests_of(root, build, paths)
    fresh = {path: known[path] for path in paths if known.get(path, {}).get("of") == digests[path]}
    stale = [path for path in paths if path not in fresh]
    with concurrent.futures.ThreadPoolExecutor(JOBS) as pool:
        for path, findings in pool.map(lambda path: look(root, build, path), stale):
            fresh[path] = {"of": digests[path], "found": findings}
            store.write_text(json.dumps(fresh))
    found = {Finding(*finding) for path in paths for finding in fresh[path]["found"]}
    return found, len(stale)


def look(root, build, path):
    run = subprocess.run(["clang-tidy", "--quiet", "-p", str(build), str(root / path)],
                         capture_output=True, text=True)
    findings = []
    for file, line, message, rule in COMPLAINT.findall(run.stdout):
        name = re.search(r"'([^']*)'", message)
        findings.append((str(pathlib.Path(file).relative_to(root)), int(line), rule.split(",")[0],
                         name[1] if name else "-", message))
    if run.returncode != 0 and not findings:
        raise RuntimeError(f"clang-tidy failed on {path}:\n{run.stdout}{run.stderr}")
    return path, findings


def digests_of(root, build, paths):
    """For each file a digest of all that clang-tidy's answer rests on."""
    version = subprocess.run(["clang-tidy", "--version"], capture_output=True, check=True).stdout
    commands = {entry["file"]: entry["command"]
                for entry in json.loads((build / "compile_commands.json").read_text())}
    common = version + (root / ".clang-tidy").read_bytes()
    digests = {}
    for path in paths:
        digest = hashlib.sha256(common + commands[str(root / path)].encode())
        for drawn in sorted(drawn_in(root, path, set())):
            digest.update((root / drawn).read_bytes())
        digests[path] = digest.hexdigest()
    return digests


def drawn_in(root, path, seen):
    """The file and every file of ours it includes, however deep."""
    seen.add(path)
    for header in OUR_INCLUDE.findall((root / path).read_text()):
        inner = f"src/{header}"
        if inner not in seen and (root / inner).exists():
            drawn_in(root, inner, seen)
    return seen
