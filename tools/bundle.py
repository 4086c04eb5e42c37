#!/usr/bin/python3
"""Turns data/ into what the programs carry.

  data/*.toml, data/recipes/*.toml  ->  data.json
  data/words/<language>.po          ->  words.<language>.json
  both                              ->  embedded.cpp (interface: hosts/common/embedded.h)
  examples/*.toml                   ->  seasons.cpp (interface: tests/seasons.h, tests only)

Usage: bundle.py --data DIR --examples DIR --out DIR
"""

import argparse
import datetime
import json
import math
import sys
import tomllib
from pathlib import Path

import po

TABLES = ("sources", "constants", "units", "crops", "uses", "thermal", "stations", "onset", "soak",
          "cautions", "equipment", "fermentation", "readiness", "quality", "removal", "manures",
          "compost", "heat_rules")
PLURAL_FORMS = {
    "one-other": ("one", "other"),
    "french": ("one", "other"),
    "zero-one": ("one", "other"),
    "zero-and-one": ("one", "other"),
    "arabic": ("zero", "one", "two", "few", "many", "other"),
    "none": ("other",),
}
PIECE = 4000  # characters; at most 16 kB of UTF-8


class BundleError(Exception):
    pass


def plain(value, where: str):
    """TOML value -> JSON value; dates become ISO strings."""
    if isinstance(value, dict):
        return {key: plain(item, f"{where}.{key}") for key, item in value.items()}
    if isinstance(value, list):
        return [plain(item, f"{where}[{index}]") for index, item in enumerate(value)]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    if isinstance(value, float) and not math.isfinite(value):
        raise BundleError(f"{where}: {value} is not a number that JSON can hold")
    return value


def load(path: Path) -> dict:
    try:
        document = tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise BundleError(f"{path}: {error}") from error
    return {key: plain(value, f"{path}: {key}") for key, value in document.items()}


def table(path: Path, name: str) -> list:
    if not path.exists():
        raise BundleError(f"{path}: missing")
    document = load(path)
    if list(document) != [name]:
        raise BundleError(f"{path}: must hold [[{name}]] and nothing else, holds {list(document)}")
    rows = document[name]
    if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
        raise BundleError(f"{path}: {name} must be an array of tables, [[{name}]]")
    return rows


def data_bundle(folder: Path) -> dict:
    stray = {path.stem for path in folder.glob("*.toml")} - set(TABLES)
    if stray:
        raise BundleError(f"{folder}: no place in the bundle for {sorted(stray)}")
    bundle = {"schema": 1}
    for name in TABLES:
        bundle[name] = table(folder / f"{name}.toml", name)
    bundle["recipes"] = [load(path) for path in sorted((folder / "recipes").glob("*.toml"))]
    if not bundle["recipes"]:
        raise BundleError(f"{folder / 'recipes'}: no recipe")
    return bundle


def marks(catalogue: po.Catalogue, path: Path) -> dict:
    """Decimal mark, group mark and plural family; a language other than English must say them."""
    english = {"Decimal": ".", "Group": ",", "Plural": "one-other"} if path.stem == "en" else {}
    found = {}
    for name in ("Decimal", "Group", "Plural"):
        value = catalogue.headers.get(f"X-{name}", english.get(name))
        if value is None:
            raise BundleError(f"{path}: the header must give X-{name}")
        found[name.lower()] = " " if value == "space" else value
    if found["plural"] not in PLURAL_FORMS:
        raise BundleError(f"{path}: unknown plural family {found['plural']}")
    return found


def sentence(entry: po.Entry, forms: tuple, path: Path):
    """The text, or one text per plural form; None where it is not translated yet."""
    if len(entry.texts) != (1 if entry.plural is None else len(forms)):
        raise BundleError(f"{path}:{entry.line}: {entry.key} needs the forms {', '.join(forms)}")
    texts = [entry.texts[slot] for slot in range(len(entry.texts))]
    if path.stem == "en":
        texts = [text or english for text, english in zip(texts, (entry.msgid, entry.plural))]
    if not all(texts):
        return None
    return texts[0] if entry.plural is None else dict(zip(forms, texts))


def words(path: Path) -> dict:
    catalogue = po.read(path)
    bundle = {"language": path.stem, **marks(catalogue, path), "sentences": {}}
    forms = PLURAL_FORMS[bundle["plural"]]
    for entry in catalogue.entries:
        text = sentence(entry, forms, path)
        if text is not None:  # not translated yet: the reader falls back to English
            bundle["sentences"][entry.key] = text
    return bundle


def literal(text: str) -> str:
    """A C++ raw string literal in pieces, for compilers that limit the length of one."""
    if ')~"' in text:
        raise BundleError('a text holds )~" and cannot be embedded')
    pieces = [text[start : start + PIECE] for start in range(0, len(text), PIECE)] or [""]
    return "\n".join(f'R"~({piece})~"' for piece in pieces)


def chooser(function: str, argument: str, texts: dict[str, str]) -> str:
    lines = [f"std::string_view {function}(std::string_view {argument}) {{"]
    for name, text in texts.items():
        lines.append(f'  if ({argument} == "{name}") return\n{literal(text)};')
    return "\n".join([*lines, "  return {};", "}"])


def source(header: str, namespace: str, *functions: str) -> str:
    opening = f'#include "{header}"\n\nnamespace wheyfield::{namespace} {{'
    return "\n\n".join([opening, *functions, f"}}  // namespace wheyfield::{namespace}\n"])


def embedded(data: str, languages: dict[str, str]) -> str:
    function = f"std::string_view data_json() {{\n  return\n{literal(data)};\n}}"
    return source(
        "embedded.h", "embedded", function, chooser("words_json", "language", languages)
    )


def seasons(examples: Path) -> str:
    texts = {path.stem: dump(load(path)) for path in sorted(examples.glob("*.toml"))}
    return source("seasons.h", "seasons", chooser("season_json", "name", texts))


def dump(value) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def build(data: Path, examples: Path, out: Path) -> None:
    languages = {path.stem: dump(words(path)) for path in sorted(data.glob("words/*.po"))}
    if "en" not in languages:
        raise BundleError(f"{data / 'words' / 'en.po'}: missing")
    files = {f"words.{language}.json": text for language, text in languages.items()}
    files["data.json"] = dump(data_bundle(data))
    files["embedded.cpp"] = embedded(files["data.json"], languages)
    files["seasons.cpp"] = seasons(examples)
    out.mkdir(parents=True, exist_ok=True)
    for name, text in files.items():
        (out / name).write_text(text, encoding="utf-8")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--data", type=Path, required=True)
    parser.add_argument("--examples", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    arguments = parser.parse_args()
    try:
        build(arguments.data, arguments.examples, arguments.out)
    except (BundleError, po.PoError) as error:
        print(f"bundle: {error}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
