#!/usr/bin/python3
"""Tests of the .po reader: what it reads, and what it must refuse."""

import unittest

import po

HEADER = 'msgid ""\nmsgstr ""\n"Language: en\\n"\n"X-Decimal: .\\n"\n\n'


class Po(unittest.TestCase):
    def test_reads_texts_plurals_and_continued_lines(self):
        catalogue = po.parse(
            HEADER
            + 'msgctxt "a.b"\nmsgid "one "\n"line\\n"\n"\\"q\\" \\\\"\nmsgstr ""\n\n'
            + '# note\n#, python-brace-format\nmsgctxt "cans"\nmsgid "{n} can"\n'
            + 'msgid_plural "{n} cans"\nmsgstr[0] "x"\nmsgstr[1] "y"\n',
            "t.po",
        )
        self.assertEqual(catalogue.headers["X-Decimal"], ".")
        first, second = catalogue.entries
        self.assertEqual((first.key, first.msgid), ("a.b", 'one line\n"q" \\'))
        self.assertEqual((second.plural, second.texts), ("{n} cans", {0: "x", 1: "y"}))
        self.assertEqual(second.flags, {"python-brace-format"})

    def refuses(self, text, message):
        with self.assertRaisesRegex(po.PoError, message):
            po.parse(HEADER + text, "t.po")

    def test_refuses_a_sentence_without_key(self):
        self.refuses('msgid "x"\nmsgstr ""\n', r"t.po:6: .*msgctxt")

    def test_refuses_a_key_twice(self):
        one = 'msgctxt "k"\nmsgid "x"\nmsgstr ""\n\n'
        self.refuses(one + one, r"t.po:10: the key k is already at line 6")

    def test_refuses_stray_lines_and_escapes(self):
        self.refuses('msgctxt "k"\nmsgid x\nmsgstr ""\n', r"t.po:7: not a .po line")
        self.refuses('msgctxt "k"\nmsgid "\\q"\nmsgstr ""\n', r"unknown escape")
        self.refuses('msgctxt "k"\nmsgid "a"b"\nmsgstr ""\n', r"double quote")

    def test_refuses_a_missing_or_doubled_part(self):
        self.refuses('msgctxt "k"\nmsgid "x"\n', r"needs msgstr")
        self.refuses('msgctxt "k"\nmsgid "x"\nmsgid "y"\nmsgstr ""\n', r"msgid twice")
        self.refuses('msgctxt "k"\nmsgid "x"\nmsgstr[0] ""\n', r"does not belong")
        self.refuses('msgctxt "k"\nmsgid ""\nmsgstr "x"\n', r"no msgid")

    def test_refuses_fuzzy_entries_and_a_missing_header(self):
        self.refuses('#, fuzzy\nmsgctxt "k"\nmsgid "x"\nmsgstr ""\n', r"fuzzy")
        with self.assertRaisesRegex(po.PoError, "header"):
            po.parse('msgctxt "k"\nmsgid "x"\nmsgstr ""\n', "t.po")


if __name__ == "__main__":
    unittest.main()
