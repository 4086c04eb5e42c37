#!/usr/bin/python3
"""Tests of the bundler on a small data folder made for the test."""

import json
import subprocess
import tempfile
import unittest
from pathlib import Path

import bundle
import po

PO = """msgid ""
msgstr ""
"Language: {language}\\n"
{marks}
msgctxt "hello"
msgid "Hello {{name}}"
msgstr "{hello}"

msgctxt "cans"
msgid "{{n}} can"
msgid_plural "{{n}} cans"
msgstr[0] "{one}"
msgstr[1] "{other}"
"""
EMPTY = {"hello": "", "one": "", "other": ""}
DRAFT = {"hello": "Habari {name}", "one": "", "other": ""}


class Bundle(unittest.TestCase):
    def setUp(self):
        self.scratch = tempfile.TemporaryDirectory()
        self.addCleanup(self.scratch.cleanup)
        self.data = Path(self.scratch.name) / "data"
        self.out = Path(self.scratch.name) / "out"
        self.examples = Path(self.scratch.name) / "examples"
        self.examples.mkdir()
        (self.data / "recipes").mkdir(parents=True)
        (self.data / "words").mkdir()
        for name in bundle.TABLES:
            self.write(f"{name}.toml", f'[[{name}]]\nid = "x"\n')
        self.write("recipes/a.toml", 'id = "a"\nsince = 2027-03-04\n')
        self.write("words/en.po", PO.format(language="en", marks="", **EMPTY))

    def write(self, name, text):
        (self.data / name).write_text(text, encoding="utf-8")

    def build(self):
        bundle.build(self.data, self.examples, self.out)
        return json.loads((self.out / "data.json").read_text(encoding="utf-8"))

    def refuses(self, message):
        with self.assertRaisesRegex((bundle.BundleError, po.PoError), message):
            self.build()

    def test_tables_keep_their_keys_and_dates_become_iso_text(self):
        data = self.build()
        self.assertEqual(list(data), ["schema", *bundle.TABLES, "recipes"])
        self.assertEqual(data["crops"], [{"id": "x"}])
        self.assertEqual(data["recipes"], [{"id": "a", "since": "2027-03-04"}])

    def test_english_is_its_own_msgid(self):
        self.build()
        words = json.loads((self.out / "words.en.json").read_text(encoding="utf-8"))
        self.assertEqual(words["sentences"]["hello"], "Hello {name}")
        self.assertEqual(words["sentences"]["cans"], {"one": "{n} can", "other": "{n} cans"})
        self.assertEqual((words["decimal"], words["plural"]), (".", "one-other"))

    def test_an_untranslated_sentence_is_left_out(self):
        marks = '"X-Decimal: ,\\n"\n"X-Group: space\\n"\n"X-Plural: one-other\\n"\n'
        self.write("words/sw.po", PO.format(language="sw", marks=marks, **DRAFT))
        self.build()
        words = json.loads((self.out / "words.sw.json").read_text(encoding="utf-8"))
        self.assertEqual(words["sentences"], {"hello": "Habari {name}"})
        self.assertEqual((words["decimal"], words["group"]), (",", " "))

    def test_refuses_with_file_and_key(self):
        self.write("words/sw.po", PO.format(language="sw", marks="", **DRAFT))
        self.refuses(r"sw.po: the header must give X-Decimal")
        (self.data / "words/sw.po").unlink()
        self.write("crops.toml", '[[crop]]\nid = "x"\n')
        self.refuses(r"crops.toml: must hold \[\[crops\]\]")
        self.write("crops.toml", "[[crops]]\nlow = inf\n")
        self.refuses(r"crops.toml: crops\[0\].low: inf")
        self.write("crops.toml", "[[crops]\n")
        self.refuses(r"crops.toml: ")
        (self.data / "crops.toml").unlink()
        self.refuses(r"crops.toml: missing")
        self.write("crops.toml", "[[crops]]\n")
        self.write("odd.toml", "")
        self.refuses(r"no place in the bundle for \['odd'\]")

    def test_an_example_season_becomes_json_for_the_tests(self):
        (self.examples / "small.toml").write_text("stock = []\n[season]\nfrom = 2027-02-01\n")
        self.build()
        text = (self.out / "seasons.cpp").read_text(encoding="utf-8")
        self.assertIn('if (name == "small") return', text)
        self.assertIn('"from": "2027-02-01"', text)

    def test_embedded_text_comes_back_byte_for_byte(self):
        long_text = 'é "quote" \\\\ ' * 2000
        self.write("units.toml", f"[[units]]\nid = '''{long_text}'''\n")
        self.build()
        check = self.out / "main.cpp"
        check.write_text(
            '#include <iostream>\n#include "embedded.h"\nint main() {\n'
            "  std::cout << wheyfield::embedded::data_json()"
            ' << wheyfield::embedded::words_json("en")'
            ' << wheyfield::embedded::words_json("xx");\n}\n'
        )
        header = Path(__file__).resolve().parent.parent / "hosts/common"
        program = self.out / "main"
        subprocess.run(
            ["g++", "-std=c++20", f"-I{header}", check, self.out / "embedded.cpp", "-o", program],
            check=True,
        )
        printed = subprocess.run([program], check=True, capture_output=True).stdout
        files = [self.out / "data.json", self.out / "words.en.json"]
        self.assertEqual(printed, b"".join(file.read_bytes() for file in files))


if __name__ == "__main__":
    unittest.main()
