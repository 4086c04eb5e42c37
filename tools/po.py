#!/usr/bin/python3
"""A strict reader of the gettext .po files in data/words.

Every sentence has a msgctxt (its stable key) and a msgid (the English). What gettext would let
pass and we would not (no key, a key twice, a stray line, an unknown escape) is an error with the
file and line.
"""

import re
from dataclasses import dataclass, field
from pathlib import Path

LINE = re.compile(r'^(msgctxt|msgid|msgid_plural|msgstr|msgstr\[(\d+)\])?\s*"(.*)"$')
ESCAPES = {"n": "\n", "t": "\t", '"': '"', "\\": "\\"}


class PoError(Exception):
    pass


@dataclass
class Entry:
    line: int
    key: str | None = None
    msgid: str | None = None
    plural: str | None = None
    texts: dict[int, str] = field(default_factory=dict)
    flags: set[str] = field(default_factory=set)


@dataclass
class Catalogue:
    headers: dict[str, str]
    entries: list[Entry]


def unescape(raw: str, where: str) -> str:
    if re.search(r'(?<!\\)(\\\\)*"', raw):
        raise PoError(f"{where}: a double quote inside a text must be written \\\"")
    def one(match):
        if match[1] not in ESCAPES:
            raise PoError(f"{where}: unknown escape \\{match[1]}")
        return ESCAPES[match[1]]
    return re.sub(r"\\(.?)", one, raw)


def store(entry: Entry, keyword: str, index: str | None, text: str, where: str) -> None:
    """Puts `text` under a keyword that must not have come before in this entry."""
    if keyword.startswith("msgstr"):
        slot = int(index or 0)
        if slot in entry.texts or (index is None) != (entry.plural is None):
            raise PoError(f"{where}: {keyword} does not belong here")
        entry.texts[slot] = text
        return
    name = {"msgctxt": "key", "msgid": "msgid", "msgid_plural": "plural"}[keyword]
    if getattr(entry, name) is not None:
        raise PoError(f"{where}: {keyword} twice in one entry")
    setattr(entry, name, text)


def extend(entry: Entry, keyword: str, index: str | None, text: str) -> None:
    if keyword.startswith("msgstr"):
        entry.texts[int(index or 0)] += text
    else:
        name = {"msgctxt": "key", "msgid": "msgid", "msgid_plural": "plural"}[keyword]
        setattr(entry, name, getattr(entry, name) + text)


def read_entry(lines: list[tuple[int, str]], name: str) -> Entry | None:
    entry, last = Entry(lines[0][0]), None
    for number, line in lines:
        where = f"{name}:{number}"
        if line.startswith("#"):
            if line.startswith("#,"):
                entry.flags |= {flag.strip() for flag in line[2:].split(",")}
            continue
        match = LINE.match(line)
        if not match or (match[1] is None and last is None):
            raise PoError(f"{where}: not a .po line: {line}")
        text = unescape(match[3], where)
        if match[1]:
            last = (match[1], match[2])
            store(entry, *last, text, where)
        else:
            extend(entry, *last, text)
    return entry if last else None


def blocks(text: str):
    block = []
    for number, line in enumerate(text.splitlines(), 1):
        if line.strip():
            block.append((number, line.strip()))
        elif block:
            yield block
            block = []
    if block:
        yield block


def read_headers(entry: Entry) -> dict[str, str]:
    pairs = (line.split(":", 1) for line in entry.texts[0].splitlines() if ":" in line)
    return {name.strip(): value.strip() for name, value in pairs}


def check(entry: Entry, name: str, seen: dict[str, int]) -> None:
    where = f"{name}:{entry.line}"
    if not entry.key:
        raise PoError(f"{where}: every sentence needs a msgctxt (its key)")
    if entry.key in seen:
        raise PoError(f"{where}: the key {entry.key} is already at line {seen[entry.key]}")
    if not entry.msgid:
        raise PoError(f"{where}: {entry.key} has no msgid (the English text)")
    if "fuzzy" in entry.flags:
        raise PoError(f"{where}: {entry.key} is marked fuzzy: read it and take the mark off")
    wanted = set(range(len(entry.texts)))
    if not entry.texts or set(entry.texts) != wanted:
        raise PoError(f"{where}: {entry.key} needs msgstr, or msgstr[0], msgstr[1], ... in full")
    seen[entry.key] = entry.line


def parse(text: str, name: str) -> Catalogue:
    entries = [entry for block in blocks(text) if (entry := read_entry(block, name))]
    if not entries or entries[0].key is not None or entries[0].msgid != "":
        raise PoError(f'{name}: the first entry must be the header (msgid "")')
    if 0 not in entries[0].texts:
        raise PoError(f"{name}: the header has no msgstr")
    seen: dict[str, int] = {}
    for entry in entries[1:]:
        check(entry, name, seen)
    return Catalogue(read_headers(entries[0]), entries[1:])


def read(path: Path) -> Catalogue:
    try:
        return parse(path.read_text(encoding="utf-8"), str(path))
    except UnicodeDecodeError as error:
        raise PoError(f"{path}: not UTF-8 ({error.reason} at byte {error.start})") from error
