# SPDX-License-Identifier: MIT
"""What stands where in the sources, as Universal Ctags tells it."""

import json
import subprocess


def tags_of(root, paths):
    """Every tag of the files: {"name", "path", "line", "end", "kind", "scope"}."""
    listed = subprocess.run(
        ["ctags", "--language-force=C++", "--kinds-C++=+lpzx", "--fields=+neKs",
         "--output-format=json", "-L", "-", "-o", "-"],
        cwd=root, input="\n".join(paths), capture_output=True, text=True, check=True)
    return [json.loads(line) for line in listed.stdout.splitlines()]
