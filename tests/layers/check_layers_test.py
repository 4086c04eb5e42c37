#!/usr/bin/python3
"""Plants violations in a copy of the real core and stores; each must be found, and the clean copy must pass."""

import shutil
import subprocess
import sys
import tempfile
import unittest
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
CHECK = ROOT / "tools" / "check_layers.py"


class Layers(unittest.TestCase):
    def setUp(self):
        self.scratch = tempfile.TemporaryDirectory()
        self.addCleanup(self.scratch.cleanup)
        self.core = Path(self.scratch.name) / "core"
        self.store = Path(self.scratch.name) / "store"
        shutil.copytree(ROOT / "core", self.core)
        shutil.copytree(ROOT / "store", self.store)
        shutil.copytree(ROOT / "solvers", Path(self.scratch.name) / "solvers")
        rooms = (self.core / "MODULES").read_text().split()
        self.first, self.last = rooms[0], rooms[-1]

    def run_check(self):
        return subprocess.run(
            [sys.executable, CHECK, self.scratch.name], capture_output=True, text=True
        )

    def plant(self, name, text):
        (self.core / name).write_text(text)

    def finds(self, message):
        run = self.run_check()
        self.assertEqual(run.returncode, 1, run.stdout)
        self.assertIn(message, run.stderr)

    def test_the_copy_as_it_is_passes(self):
        run = self.run_check()
        self.assertEqual(run.returncode, 0, run.stderr)

    def test_an_include_downwards_in_the_list_passes(self):
        self.plant(f"{self.first}/low.h", "#pragma once\n")
        self.plant(f"{self.last}/high.cpp", f'#include "{self.first}/low.h"\n')
        self.assertEqual(self.run_check().returncode, 0)

    def test_finds_an_include_going_up(self):
        self.plant(f"{self.first}/bad.h", f'#pragma once\n#include "{self.last}/x.h"\n')
        self.finds(f"core/{self.first}/bad.h:2: {self.last}/x.h: goes up")

    def test_finds_an_include_going_up_in_a_test(self):
        self.plant(f"{self.first}/bad_test.cpp", f'#include "{self.last}/x.h"\n')
        self.finds("goes up")

    def test_finds_an_angled_include_of_a_room(self):
        self.plant(f"{self.last}/bad.cpp", f"#include <{self.first}/x.h>\n")
        self.finds("our own headers are included")

    def test_finds_the_core_reaching_into_a_host(self):
        self.plant(f"{self.last}/bad.cpp", '#include "hosts/cli/x.h"\n')
        self.finds("reaches outside the core")
        self.plant(f"{self.last}/bad.cpp", '#include "../../store/x.h"\n')
        self.finds("reaches outside the core")

    def test_finds_a_store_that_sees_more_than_the_journal(self):
        planted = self.store / "sqlite" / "bad.cpp"
        for room in ("calendar", "season", "api", "hosts", "core"):
            planted.write_text(f'#include <map>\n#include "{room}/x.h"\n')
            self.finds(f"store/sqlite/bad.cpp:2: {room}/x.h: store sees only")
        planted.write_text('#include "../../core/api/core.h"\n')
        self.finds("our own headers are written")
        planted.write_text('#include "connection.h"\n')
        self.finds("our own headers are written")
        planted.write_text("#include <journal/event.h>\n")
        self.finds("our own headers are included")
        planted.write_text('#include "journal/event.h"\n#include "store/memory/memory_log.h"\n')
        self.assertEqual(self.run_check().returncode, 0)

    def test_finds_a_solver_that_sees_more_than_lot_sizing(self):
        planted = Path(self.scratch.name) / "solvers" / "cbc" / "bad.cpp"
        for room in ("journal", "season", "store", "api"):
            planted.write_text(f'#include "{room}/x.h"\n')
            self.finds(f"solvers/cbc/bad.cpp:1: {room}/x.h: solvers sees only")

    def test_finds_no_stores_at_all(self):
        shutil.rmtree(self.store)
        self.finds("store: no source file found")

    def test_finds_embedded_data_outside_tests(self):
        self.plant(f"{self.last}/bad.cpp", '#include "embedded.h"\n')
        self.finds("only tests may use the embedded data")
        (self.core / self.last / "bad.cpp").rename(self.core / self.last / "good_test.cpp")
        self.assertEqual(self.run_check().returncode, 0)

    def test_finds_an_unlisted_room_and_a_missing_one(self):
        (self.core / "attic").mkdir()
        self.finds("core/attic: not in core/MODULES")
        (self.core / "attic").rmdir()
        shutil.rmtree(self.core / self.last)
        self.finds(f"{self.last} has no folder")


if __name__ == "__main__":
    unittest.main()
