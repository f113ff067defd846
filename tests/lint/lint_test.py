# SPDX-License-Identifier: MIT
"""The checks find what they are for, in sources made up here."""

import pathlib
import subprocess
import tempfile
import unittest

from finding import Finding, not_allowed, shrunk
from includes import include_findings, without_source
from sizes import names, sizes
from tags import tags_of
from tidy import tidy_findings

HERE = pathlib.Path(__file__).parent
PROJECT = HERE.parent.parent


class MadeUpTree(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.root = pathlib.Path(self.folder.name).resolve()

    def tearDown(self):
        self.folder.cleanup()

    def write(self, path, text):
        file = self.root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
        return path

    def keys(self, findings):
        return sorted(finding.key() for finding in findings)


class Sizes(MadeUpTree):
    def found(self, path, text):
        self.write(path, text)
        return self.keys(sizes(self.root, tags_of(self.root, [path]), [path]))

    def test_functions(self):
        for lines, key in ((60, []), (61, ["size tests/a.cpp longish"])):
            body = "\n".join(["void longish() {"] + ["  ;"] * (lines - 2) + ["}"])
            self.assertEqual(self.found("tests/a.cpp", body), key)

    def test_lambdas(self):
        body = "auto f = [] {\n" + "  ;\n" * 60 + "};\n"
        self.assertEqual(len(self.found("tests/a.cpp", body)), 1)

    def test_tests(self):
        body = "TEST(Long, Case) {\n" + "  ;\n" * 60 + "}\n"
        self.assertEqual(self.found("tests/a_test.cpp", body), ["size tests/a_test.cpp TEST"])

    def test_classes_with_what_is_defined_outside_them(self):
        inside = "class Big {\n" + "  int a_;\n" * 148 + "  void f();\n};\n"
        for lines, key in ((49, []), (50, ["size src/a.cpp Big"])):
            outside = "void Big::f() {\n" + "  ;\n" * (lines - 2) + "}\n"
            self.assertEqual(self.found("src/a.cpp", inside + outside), key)

    def test_files(self):
        for path, lines, key in (("src/a.cpp", 400, []), ("src/a.cpp", 401, ["size src/a.cpp -"]),
                                 ("tests/a_test.cpp", 401, [])):
            self.assertEqual(self.found(path, "// x\n" * lines), key)


class Names(MadeUpTree):
    def test_of_tests(self):
        path = self.write("tests/a_test.cpp", """
namespace trug {
class goodBad { public: goodBad(); void DoIt(); int some_member_; int badMember; };
constexpr int kLimit = 1;
int BadFunction(int badParameter) { int badLocal = 0; return badLocal; }
TEST(Some, Case) {}
bool operator==(const goodBad& a, const goodBad& b);
}
""")
        found = self.keys(names(tags_of(self.root, [path])))
        self.assertEqual(found, [f"name {path} {name}" for name in (
            "BadFunction", "badLocal", "badMember", "badParameter", "goodBad")])


class Includes(MadeUpTree):
    def found(self, **files):
        paths = [self.write(f"src/a/{name.replace('_', '.')}", text)
                 for name, text in files.items()]
        return self.keys(include_findings(self.root, paths, tags_of(self.root, paths),
                                          HERE / "std_names.txt"))

    def test_missing(self):
        self.assertEqual(self.found(x_h="std::string f();\n"), ["include src/a/x.h string"])
        self.assertEqual(self.found(x_cpp="int f() { return errno; }\n"),
                         ["include src/a/x.cpp cerrno"])
        self.assertEqual(self.found(x_cpp="auto f(int* p) { return std::ranges::find(p, 1); }\n"),
                         ["include src/a/x.cpp algorithm"])

    def test_unused(self):
        self.assertEqual(self.found(x_h="#include <map>\nint f();\n"), ["include src/a/x.h map"])

    def test_neither(self):
        for code in ("#include <string>\nstd::string f();\n", "// std::string is not used\n",
                     "constexpr auto kText = \"std::string\";\n",
                     "#include <map>  // the library forgets it\n",
                     "#include <compare>\nstruct A { auto operator<=>(const A&) const; };\n",
                     "#include <iostream>\nvoid f(std::ostream&);\n"):
            self.assertEqual(self.found(x_h=code), [], code)

    def test_what_the_own_header_includes(self):
        header = "#include <string>\nstd::string f();\n"
        source = '#include "a/x.h"\nstd::string f() { return {}; }\n'
        self.assertEqual(self.found(x_h=header, x_cpp=source), [])
        self.assertEqual(self.found(x_h=header, y_cpp=source), ["include src/a/y.cpp string"])

    def test_ours(self):
        header = "int used();\n"
        for code, key in (('#include "a/x.h"\nint g() { return used(); }\n', []),
                          ('#include "a/x.h"\nint g();\n', ["include src/a/y.cpp a/x.h"])):
            self.assertEqual(self.found(x_h=header, y_cpp=code), key)

    def test_own_header_first(self):
        files = {"x_h": "int f();\n", "z_h": "int g();\n",
                 "x_cpp": '#include "a/z.h"\n#include "a/x.h"\nint f() { return g(); }\n'}
        self.assertEqual(self.found(**files), ["include src/a/x.cpp src/a/x.h"])
        self.assertEqual(without_source(["src/a/x.h", "src/a/x.cpp", "src/a/z.h"]), ["src/a/z.h"])

    def test_unknown_header(self):
        self.assertEqual(self.found(x_h="#include <coroutine>\n"),
                         ["include src/a/x.h coroutine"])


class Tidy(MadeUpTree):
    def setUp(self):
        super().setUp()
        self.write(".clang-tidy", (PROJECT / ".clang-tidy").read_text())
        self.write("src/a.h", "int Wrong();\n")
        self.path = self.write("src/a.cpp", '#include "a.h"\nint Wrong() { return 1; }\n')
        self.write("build/compile_commands.json", f"""[{{"directory": "{self.root}",
            "file": "{self.root / self.path}", "command": "clang++ -I{self.root}/src -c {self.root / self.path}"}}]""")

    def look(self):
        findings, looked_at = tidy_findings(self.root, self.root / "build", [self.path])
        return self.keys(findings), looked_at

    def test_is_kept_until_something_changes(self):
        wrong = ["readability-identifier-naming src/a.h Wrong"]
        self.assertEqual(self.look(), (wrong, 1))
        self.assertEqual(self.look(), (wrong, 0))
        self.write("src/a.h", "int right();\n")
        self.write("src/a.cpp", '#include "a.h"\nint right() { return 1; }\n')
        self.assertEqual(self.look(), ([], 1))
        self.write("src/a.h", "int right();  // said\n")
        self.assertEqual(self.look(), ([], 1))

    def test_size_and_complexity(self):
        long = "int right() {\n" + "  ;\n" * 61 + "  return 1;\n}\n"
        loops = "for (;;) " * 6
        for code, rule in ((long, "readability-function-size"),
                           (f"int right() {{\n  {loops}return 1;\n}}\n",
                            "readability-function-cognitive-complexity")):
            self.write("src/a.cpp", code)
            self.assertEqual(self.look()[0], [f"{rule} src/a.cpp right"])

    def test_what_does_not_compile(self):
        self.write("src/a.cpp", "int f() { return g(); }\n")
        self.assertEqual(self.look(), (["clang-diagnostic-error src/a.cpp g"], 1))


class Allowed(unittest.TestCase):
    FINDINGS = [Finding("src/a.cpp", 1, "size", "f", "too long")]

    def test_lets_pass_what_is_listed(self):
        self.assertEqual(not_allowed(self.FINDINGS, ["# why", "size src/a.cpp f"]), [])
        self.assertEqual(not_allowed(self.FINDINGS, []), self.FINDINGS)

    def test_must_shrink(self):
        lines = ["# why", "size src/a.cpp f", "size src/a.cpp g"]
        stale = not_allowed(self.FINDINGS, lines)
        self.assertEqual([(finding.rule, finding.line) for finding in stale], [("allowed", 3)])
        self.assertEqual(shrunk(self.FINDINGS, lines), lines[:2])


class Layers(MadeUpTree):
    def found(self, **modules):
        self.write("tests/layers.txt", "low:\nmid: low\nhigh: low mid\n<outside: low\n")
        for name, (depends, includes) in modules.items():
            self.write(f"src/{name}/CMakeLists.txt",
                       f"trug_module({name}\n  SOURCES a.cpp\n  DEPENDS {depends}\n  LIBRARIES x)")
            self.write(f"src/{name}/a.cpp", "".join(f"#include {line}\n" for line in includes))
        return subprocess.run(["sh", PROJECT / "tests/check_layers.sh", self.root],
                              capture_output=True, text=True).stdout.splitlines()

    def test_right(self):
        self.assertEqual(self.found(low=("", ["<outside/x.h>"]), mid=("low", ['"low/a.h"'])), [])

    def test_includes(self):
        self.assertEqual(self.found(low=("", ['"mid/a.h"']), mid=("low", ['"low/a.h"'])),
                         ["./low/a.cpp includes mid/", "low/ includes mid/ and does not DEPEND on it"])
        self.assertEqual(self.found(low=("", ["<string>"]), mid=("", ["<outside/x.h>"])),
                         ["./mid/a.cpp includes <outside/x.h>, which only low/ may"])

    def test_depends(self):
        self.assertEqual(self.found(low=("mid", ["<string>"]), mid=("low", ['"low/a.h"'])),
                         ["low/ may not DEPEND on mid/"])
        self.assertEqual(self.found(low=("", ["<string>"]), high=("low mid", ['"low/a.h"'])),
                         ["high/ DEPENDS on mid/ and includes nothing of it"])


if __name__ == "__main__":
    unittest.main()
