#!/usr/bin/python3
"""Compiles one case twice: as it stands it must pass, with WONT_COMPILE it must fail.

The first line of a case is `// expect: <fragment of the compiler's message>`; a failure for any
other reason is a failure of the test.

Usage: run.py --compiler CXX [--include DIR] (CASE | --self-test)
"""

import argparse
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

EXPECT = re.compile(r"^// expect: (.+)$")


def compile_case(arguments, case: Path, *flags: str) -> subprocess.CompletedProcess:
    includes = [f"-I{folder}" for folder in arguments.include]
    command = [arguments.compiler, "-std=c++20", "-fsyntax-only", *includes, *flags, str(case)]
    plain_english = {**os.environ, "LC_ALL": "C"}
    return subprocess.run(command, capture_output=True, text=True, env=plain_english)


def fault(arguments, case: Path) -> str | None:
    match = EXPECT.match(case.read_text(encoding="utf-8").splitlines()[0])
    if not match:
        return "the first line must be `// expect: <message>`"
    control = compile_case(arguments, case)
    if control.returncode != 0:
        return f"the control does not compile:\n{control.stderr}"
    mistake = compile_case(arguments, case, "-DWONT_COMPILE")
    if mistake.returncode == 0:
        return "the mistake compiles"
    if match[1] not in mistake.stderr:
        return f"it fails, but not with `{match[1]}`:\n{mistake.stderr}"
    return None


SELF_TEST = {  # source -> what the runner must say of it, "" when it is a good case
    "// expect: no match for\nstruct A {};\n"
    "#ifdef WONT_COMPILE\nauto x = A{} + A{};\n#endif\n": "",
    "// expect: no match for\nint x = 1;\n": "the mistake compiles",
    "// expect: no match for\nint x = y;\n": "the control does not compile",
    "// expect: no match for\n#ifdef WONT_COMPILE\nint x = y;\n#endif\n": "it fails, but not with",
    "int x = 1;\n": "the first line must be",
}


def self_test(arguments) -> int:
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        case = Path(folder) / "case.cpp"
        for source, expected in SELF_TEST.items():
            case.write_text(source)
            found = fault(arguments, case) or ""
            if not found.startswith(expected) or bool(found) != bool(expected):
                wrong += 1
                print(f"self-test: not {expected!r} but {found!r}\n{source}", file=sys.stderr)
    return 1 if wrong else 0


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--compiler", required=True)
    parser.add_argument("--include", action="append", default=[])
    parser.add_argument("--self-test", action="store_true")
    parser.add_argument("case", type=Path, nargs="?")
    arguments = parser.parse_args()
    if arguments.self_test:
        return self_test(arguments)
    found = fault(arguments, arguments.case)
    if found:
        print(f"{arguments.case.name}: {found}", file=sys.stderr)
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
