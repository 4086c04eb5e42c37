#!/usr/bin/python3
"""Holds data/ to its rules: every number has a unit, a range, a kind and a source that exists.

Usage: check_data.py [--data DIR]     prints "file: key: what is wrong"; exit 1 when anything is
       check_data.py --self-test      plants mistakes in a copy of the data and wants each refused

The rules of the recipe graph itself (cycles, yields) are checked by the core; here only what can be
said of the tables as written.
"""

import argparse
import math
import re
import sys
import tomllib
from pathlib import Path

KINDS = ("published", "common-practice", "memory", "computed", "assumption")
PSEUDO_SOURCES = ("common-practice", "memory", "computed-here", "assumed-here", "practice-season")
ORIGIN = ("kind", "source", "page", "note")
NUMBER = ("value", "low", "high", "exact", "unit", *ORIGIN)
WINDOW = ("early", "likely", "late")
MASS_TOLERANCE = 0.005  # ratios are written with four digits

# Keys of a row; those after the bar may be left out.
KEYS = {
    "sources": "id title year author where grade note |",
    "constants": "id value unit kind source page note | low high exact",
    "units": "name aliases dimension factor kind source page note |",
    "crops": "id harvested fourth has_fifth eaten_raw emergence stages |"
    " starts established notes base shifts_only after_fourth stand_in",
    "starts": "ways kind source page note |",
    "shifts_only": "kind source page note |",
    "after_fourth": "fifth harvest |",
    "uses": "id when anchor early likely late basis kind source page note | degree_days",
    "thermal": "crop counts_from rate to_fourth kind source page note |"
    " emergence to_harvest unit remark",
    "emergence_sum": "base cap sum |",
    "stations": "id altitude_m min max kind source page note | rain",
    "onset": "id shape amount_mm kind source page note |"
    " within_days dry_days_fail watch_days wet_day_mm next_mm next",
    "cautions": "id kind source page about | note",
    "equipment": "item quantity per unit note |",
    "soak": "crop group hours water |",
    "fermentation": "id value law unit kind source page note | spread litres",
    "quality": "stage sign verdict causes action overrides kind source page note |",
    "removal": "crop part | n p2o5 k2o p k from_air",
    "manures": "id p k | release moisture n",
    "readiness": "liquid state ph celsius kind source page note | early likely late",
    "compost": "id nitrogen moisture | ratio density manure",
    "heat_rules": "id celsius days turnings kind source page note |"
    " above celsius_most ratio_low ratio_high",
    "emergence": "early likely late kind source page note |",
    "stages": "region planting initial development mid late printed_total kind source page note |",
    "recipe": "id product letter cautions materials steps | strength_parts strength_on ph shown_for"
    " season_litres_per_acre dilutions keeping signs harvest contents",
    "dilutions": "parts on | says",
    "keeping": "days store | says",
    "signs": "sign causes action verdict kind source page note |",
    "harvest": "days where rule kind source page note |",
    "contents": "nutrient percent | says",
    "materials": "id unit role | density fate bought",
    "steps": "id vessel windows handling labour_hours takes gives tasks cautions |"
    " fill_fraction vessel_kind least_fill most_fill sours forecast",
    "forecast": "ready_ph published_least least_until_batches |",
    "windows": "warm cool |",
    "dwell": "early likely late keeps kind source page note |",
    "takes": "material ratio |",
    "gives": "material ratio measured remainder |",
    "tasks": "id day at who cautions | only_if hours",
}
WORDS = {
    "grade": ("A", "B", "C", "-"),
    "dimension": ("length", "area", "volume", "mass"),
    "harvested": ("grain", "fruit", "leaf", "root", "bulb", "head", "tuber", "stem"),
    "when": ("direct", "nursery", "tuber", "cutting", "any"),
    "basis": ("days", "factor"),
    "per": ("batch", "vessel", "season", "can-without-lid"),
    "role": ("input", "intermediate", "product", "by-product", "loss"),
    "vessel": ("household", "season", "none", "storage"),
    "vessel_kind": ("bucket", "heap", "apart"),
    "sours": ("milk", "rinse-water"),
    "handling": ("keeper", "group"),
    "group": ("cereal", "small-legume", "large-legume"),
    "who": ("trainer", "keeper", "group"),
    "at": ("start", "end"),
    "counts_from": ("sowing", "transplanting"),
    "shape": ("spell", "dekad", "accumulated"),
    "next": ("each", "total"),
    "law": ("none", "normal", "log"),
    "stage": ("milk", "rinse-water"),
    "verdict": ("use", "extend", "fix", "discard"),
    "strength_on": ("leaves", "soil"),
    "store": ("room", "cool", "refrigerated", "not-said"),
    "nutrient": ("nitrogen", "calcium"),
    "only_if": ("chlorinated", "heated", "raw"),
    "state": ("raw", "heated"),
}
ANCHORS = ("sowing", "seed-sown", "emerged", "planted-out", "stage")
SHAPE_KEYS = {
    "spell": ("within_days", "dry_days_fail", "watch_days", "wet_day_mm"),
    "dekad": ("next_mm", "next"),
    "accumulated": (),
}
# What the sentence of a task may name besides the materials of its recipe.
TASK_PLACES = {"batch", "vessel", "farm", "place", "stored", "until", "stands_until", "early", "likely",
               "late", "use_by", "worth", "currency"}
TABLES = ("sources", "constants", "units", "crops", "uses", "thermal", "stations", "onset", "soak",
          "cautions", "equipment", "fermentation", "readiness", "quality", "removal", "manures",
          "compost", "heat_rules")


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value)


def is_whole(value, least):
    return isinstance(value, int) and not isinstance(value, bool) and value >= least


class Checker:
    """Collects problems as (file, key, message)."""

    def __init__(self, folder: Path):
        self.folder = folder
        self.problems = []
        self.file = ""
        self.used = set()
        self.tables = {name: self.load(f"{name}.toml").get(name, []) for name in TABLES}
        self.sources = {row.get("id"): row for row in self.tables["sources"]}
        self.units = {}  # of a material, over all recipes: (unit, recipe file)
        self.letters = {}
        self.words = self.sentences("words/en.po")
        self.cautions = {row.get("id") for row in self.tables["cautions"]}

    def load(self, name):
        try:
            return tomllib.loads((self.folder / name).read_text(encoding="utf-8"))
        except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
            self.problems.append((name, "", str(error)))
            return {}

    def sentences(self, name):
        """Key and English sentence of every entry of a word catalogue."""
        try:
            text = (self.folder / name).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            self.problems.append((name, "", str(error)))
            return {}
        return dict(re.findall(r'^msgctxt "(.*)"\nmsgid ((?:".*"\n)+)', text, re.MULTILINE))

    def wrong(self, key, message):
        self.problems.append((self.file, key, message))

    def want(self, holds, key, message):
        if not holds:
            self.wrong(key, message)

    def keys(self, row, kind, key):
        needed, optional = (part.split() for part in KEYS[kind].split("|"))
        for name in needed:
            self.want(name in row, f"{key}.{name}", "missing")
        for name in row:
            self.want(name in needed + optional, f"{key}.{name}", "unknown key")
            if name in WORDS:
                self.want(row[name] in WORDS[name], f"{key}.{name}", f"not one of {WORDS[name]}")
        return all(name in row for name in needed)

    def origin(self, row, key):
        kind, source = row.get("kind"), row.get("source")
        self.want(kind in KINDS, f"{key}.kind", f"{kind!r} is not one of {KINDS}")
        self.want(source in self.sources, f"{key}.source", f"{source!r} is not in sources.toml")
        self.want(isinstance(row.get("page"), str), f"{key}.page", "must be text, may be empty")
        self.used.add(source)
        if kind == "published" and source in self.sources:
            real = source not in PSEUDO_SOURCES and self.sources[source].get("grade") in ("A", "B")
            self.want(real, f"{key}.source", f"published cannot rest on {source!r}")

    def number(self, row, key, alone=True):
        """A sourced number; `alone` when it is an inline table of its own."""
        if not isinstance(row, dict):
            return self.wrong(key, "must be a table { value, low, high, unit, kind, source, ... }")
        if alone:
            for name in row:
                self.want(name in NUMBER, f"{key}.{name}", "unknown key")
        self.origin(row, key)
        unit = row.get("unit")
        self.want(isinstance(unit, str) and unit, f"{key}.unit", "missing")
        self.span(row, key)

    def span(self, row, key):
        if not is_number(row.get("value")):
            return self.wrong(f"{key}.value", "missing or not a number")
        if row.get("exact") is True:
            return self.want(not {"low", "high"} & set(row), key, "exact, so no low or high")
        if not (is_number(row.get("low")) and is_number(row.get("high"))):
            return self.wrong(key, "low and high are needed unless exact = true")
        ordered = row["low"] <= row["value"] <= row["high"]
        values = f"{row['low']}, {row['value']}, {row['high']}"
        self.want(ordered, key, f"not low <= value <= high: {values}")

    def ordered(self, row, names, key):
        days = [row.get(name) for name in names]
        self.want(all(map(is_number, days)) and days == sorted(days), key, f"not rising: {days}")

    def whole(self, row, names, least, key):
        for name in names:
            good = is_whole(row.get(name), least)
            self.want(good, f"{key}.{name}", f"must be whole, {least} or more")

    def unique(self, names, key):
        seen = set()
        for name in names:
            self.want(name not in seen, key, f"{name!r} stands twice")
            seen.add(name)

    def rows(self, name, check, ident="id"):
        self.file = f"{name}.toml"
        self.want(self.tables[name], name, "no rows")
        for row in self.tables[name]:
            key = str(row.get(ident, "?"))
            if self.keys(row, name, key):
                check(row, key)

    def source(self, row, key):
        year = row["year"]
        self.want(year == "" or is_whole(year, 1800), f"{key}.year", "a year, or empty text")
        self.want(row["title"], f"{key}.title", "empty")

    def unit(self, row, key):
        self.origin(row, key)
        self.want(is_number(row["factor"]) and row["factor"] > 0, f"{key}.factor", "must be above 0")

    def days(self, row, key):
        """A window in whole days with its own origin."""
        self.keys(row, "emergence", key)
        self.origin(row, key)
        self.ordered(row, WINDOW, key)
        self.whole(row, WINDOW, 0, key)

    def crop(self, row, key):
        self.days(row["emergence"], f"{key}.emergence")
        flowers = row["fourth"] == "flowering"
        self.want(row["has_fifth"] == flowers, f"{key}.has_fifth", "goes with flowering only")
        self.starts(row, key)
        self.without_stages(row, key)
        if "base" in row:
            self.number(row["base"], f"{key}.base")
        if "shifts_only" in row and self.keys(row["shifts_only"], "shifts_only", key):
            self.origin(row["shifts_only"], f"{key}.shifts_only")
        for place, stages in enumerate(row["stages"]):
            self.stages(stages, f"{key}.stages[{place}]")

    def starts(self, row, key):
        """How a crop is started is said of all but a plant that stands already."""
        said = "starts" in row
        self.want(said != row.get("established", False), f"{key}.starts", "goes with what is started")
        if not said or not self.keys(row["starts"], "starts", f"{key}.starts"):
            return
        self.origin(row["starts"], f"{key}.starts")
        ways, known = row["starts"]["ways"], set(WORDS["when"]) - {"any"}
        self.want(ways and set(ways) <= known, f"{key}.starts.ways", f"not of {sorted(known)}")
        self.unique(ways, f"{key}.starts.ways")

    def without_stages(self, row, key):
        """A crop without rows stands for hand work: none of its keys may stand beside rows."""
        for name in ("after_fourth", "stand_in"):
            self.want(not (row["stages"] and name in row), f"{key}.{name}", "goes without stages only")
        if "stand_in" in row:
            known = any(other.get("id") == row["stand_in"] and other.get("stages")
                        for other in self.tables["crops"])
            self.want(known, f"{key}.stand_in", "is not a crop with stages")
        if "after_fourth" in row and self.keys(row["after_fourth"], "after_fourth", key):
            for name in ("fifth", "harvest"):
                self.days(row["after_fourth"][name], f"{key}.after_fourth.{name}")

    def stages(self, row, key):
        if not self.keys(row, "stages", key):
            return
        self.origin(row, key)
        lengths = ("initial", "development", "mid", "late")
        self.whole(row, (*lengths, "printed_total"), 1, key)
        if all(is_whole(row[name], 1) for name in lengths):
            total = sum(row[name] for name in lengths)
            said = row["printed_total"] == total or f"sum to {total}" in row["note"]
            self.want(said, f"{key}.printed_total", f"not the sum {total}, and no note says so")

    def use(self, row, key):
        self.origin(row, key)
        self.ordered(row, WINDOW, key)
        target = row["anchor"].removeprefix("use:")
        known = target in ANCHORS or ("use:" in row["anchor"] and target in self.use_ids)
        self.want(known, f"{key}.anchor", f"unknown anchor {row['anchor']!r}")
        if "degree_days" in row:
            self.keys(row["degree_days"], "emergence", f"{key}.degree_days")
            self.origin(row["degree_days"], f"{key}.degree_days")
            self.ordered(row["degree_days"], WINDOW, f"{key}.degree_days")

    def thermal(self, row, key):
        self.origin(row, key)
        self.want(key in {crop.get("id") for crop in self.tables["crops"]}, f"{key}.crop", "unknown")
        points = row["rate"]
        good = all(isinstance(p, list) and len(p) == 2 and all(map(is_number, p)) for p in points)
        self.want(points and good, f"{key}.rate", "must be pairs of numbers")
        if good:
            at = [point[0] for point in points]
            self.want(at == sorted(set(at)), f"{key}.rate", f"temperatures not rising: {at}")
            self.want(all(p[1] >= 0 for p in points), f"{key}.rate", "a rate below 0")
        sums = [row["to_fourth"], row.get("to_harvest", 1)]
        if "emergence" in row and self.keys(row["emergence"], "emergence_sum", f"{key}.emergence"):
            sums.append(row["emergence"]["sum"])
            rising = row["emergence"]["base"] < row["emergence"]["cap"]
            self.want(rising, f"{key}.emergence", "the cap is not above the base")
        self.want(all(is_number(s) and s > 0 for s in sums), key, "a sum that is not above 0")
        self.want(row.get("unit", "day") == "day", f"{key}.unit", "only day need be said")

    def station(self, row, key):
        self.origin(row, key)
        self.want(is_number(row["altitude_m"]), f"{key}.altitude_m", "not a number")
        for name in {"min", "max", "rain"} & set(row):
            twelve = len(row[name]) == 12 and all(map(is_number, row[name]))
            self.want(twelve, f"{key}.{name}", "must be twelve numbers")
        below = all(a <= b for a, b in zip(row["min"], row["max"]))
        self.want(below, f"{key}.min", "a minimum above its maximum")

    def onset(self, row, key):
        self.origin(row, key)
        wanted = set(SHAPE_KEYS.get(row["shape"], ()))
        others = {name for names in SHAPE_KEYS.values() for name in names} - wanted
        for name in wanted - set(row):
            self.wrong(f"{key}.{name}", f"goes with {row['shape']}: missing")
        for name in others & set(row):
            self.wrong(f"{key}.{name}", f"does not go with {row['shape']}")

    def caution(self, row, key):
        self.origin(row, key)
        self.want(f"caution.{row['id']}" in self.words, f"{key}.id", "has no words in words/en.po")
        self.want(row["about"], f"{key}.about", "empty")

    def equipment(self, row, key):
        self.number(row["quantity"], f"{key}.quantity")
        same = isinstance(row["quantity"], dict) and row["quantity"].get("unit") == row["unit"]
        self.want(same, f"{key}.unit", "differs from the unit of its quantity")

    def soak(self, row, key):
        for name, unit in (("hours", "h"), ("water", "L/kg")):
            self.number(row[name], f"{key}.{name}")
            good = isinstance(row[name], dict) and row[name].get("unit") == unit
            self.want(good, f"{key}.{name}.unit", f"must be {unit}")

    def numbers(self, row, key, units):
        """Members that are numbers, each in its unit; those left out were looked at before."""
        for name, unit in units.items():
            if name not in row:
                continue
            self.number(row[name], f"{key}.{name}")
            good = isinstance(row[name], dict) and row[name].get("unit") == unit
            self.want(good, f"{key}.{name}.unit", f"must be {unit}")

    def removal(self, row, key):
        self.want(row["crop"] in {crop.get("id") for crop in self.tables["crops"]}, key, "no such crop")
        for oxide, element in (("p2o5", "p"), ("k2o", "k")):
            one = (oxide in row) != (element in row)
            self.want(one, f"{key}.{oxide}", f"either {oxide} or {element}")
        self.numbers(row, key, {**dict.fromkeys(("n", "p2o5", "k2o", "p", "k"), "kg/t"), "from_air": "1"})

    def manure(self, row, key):
        self.numbers(row, key, {**dict.fromkeys("npk", "% dry"), "moisture": "%", "release": "1"})
        heaped = key in {each.get("id") for each in self.tables["compost"]}
        for name in ("moisture", "n"):
            self.want((name in row) != heaped, f"{key}.{name}", "either here or in compost.toml")
        named = f"nutrients.{key}" in self.words or f"ingredient.{key}" in self.words
        self.want(named, f"{key}.id", "has no words in words/en.po")

    def fermentation(self, row, key):
        self.origin(row, key)
        self.want(is_number(row["value"]), f"{key}.value", "not a number")
        self.want(isinstance(row["unit"], str) and row["unit"], f"{key}.unit", "missing")
        spread = ("spread" in row) == (row["law"] != "none")
        self.want(spread, f"{key}.spread", "goes with law normal and log only")
        for name in {"spread", "litres", *(["value"] if row["law"] == "log" else [])} & set(row):
            self.want(is_number(row[name]) and row[name] > 0, f"{key}.{name}", "must be above 0")

    def quality(self, row, key):
        self.origin(row, key)
        self.want(isinstance(row["overrides"], bool), f"{key}.overrides", "true or false")
        self.want(isinstance(row["causes"], list) and row["causes"], f"{key}.causes", "names none")
        names = [("sign", row["sign"]), ("action", row["action"])]
        for part, name in names + [("cause", cause) for cause in row["causes"]]:
            self.want(f"quality.{part}.{name}" in self.words, f"{key}.{part}", f"{name!r} has no sentence")
        self.want(row["verdict"] != "fix", f"{key}.verdict", "the looks know no mending")
        throws_away = row["verdict"] == "discard" or not row["overrides"]
        self.want(throws_away, f"{key}.overrides", "goes with verdict discard only")

    def compost(self, row, key):
        units = {"nitrogen": "% of dry", "ratio": "C:N", "moisture": "% of wet", "density": "kg/m3"}
        for name in set(units) & set(row):
            self.number(row[name], f"{key}.{name}")
            good = isinstance(row[name], dict) and row[name].get("unit") == units[name]
            self.want(good, f"{key}.{name}.unit", f"must be {units[name]}")
        value = {name: row[name].get("value", 0) for name in set(units) & set(row)}
        self.want(0 <= value["moisture"] < 100, f"{key}.moisture", "not from 0 to below 100")
        self.want(("ratio" in row) == (value["nitrogen"] > 0), f"{key}.ratio", "goes with nitrogen")
        self.want(row.get("manure", True) is True, f"{key}.manure", "true, or left out")
        self.want(f"ingredient.{key}" in self.words, f"{key}.id", "has no words in words/en.po")

    def heat_rule(self, row, key):
        self.origin(row, key)
        self.want(is_number(row["celsius"]), f"{key}.celsius", "not a number")
        self.whole(row, ("days",), 1, key)
        self.whole(row, ("turnings",), 0, key)
        ratios = [row.get("ratio_low"), row.get("ratio_high")]
        both = ratios == [None, None] or (all(map(is_number, ratios)) and ratios == sorted(ratios))
        self.want(both, f"{key}.ratio_low", "goes with a ratio_high that is no lower")
        self.want(f"heat-rule.{key}" in self.words, f"{key}.id", "has no words in words/en.po")

    def readiness(self, row, key):
        """Hours by which so many are ready: none after one that is missing."""
        self.origin(row, key)
        at = f"{row['liquid']} {row['state']} {row['ph']} {row['celsius']}"
        self.want(is_number(row["celsius"]) and is_number(row["ph"]), at, "not a number")
        hours = [row[name] for name in WINDOW if name in row]
        self.want(list(WINDOW)[:len(hours)] == [n for n in WINDOW if n in row], at, "a gap in the hours")
        good = all(is_number(h) and h > 0 for h in hours) and hours == sorted(hours)
        self.want(good, at, f"not rising from above 0: {hours}")

    def readiness_order(self):
        self.file = "readiness.toml"
        curves = {}
        for row in self.tables["readiness"]:
            curves.setdefault((row.get("liquid"), row.get("state"), row.get("ph")), []).append(
                row.get("celsius"))
        for key, celsius in curves.items():
            rising = all(map(is_number, celsius)) and celsius == sorted(set(celsius))
            self.want(rising, f"{key[0]} {key[1]} {key[2]}", f"temperatures not rising: {celsius}")
        return curves

    def forecast(self, row, key, liquid):
        if not self.keys(row, "forecast", key):
            return
        for name, unit in (("ready_ph", "pH"), ("published_least", "days"),
                           ("least_until_batches", "batches")):
            self.number(row[name], f"{key}.{name}")
            self.want(row[name].get("unit") == unit, f"{key}.{name}.unit", f"must be {unit}")
        for name in ("published_least", "least_until_batches"):
            self.want(is_whole(row[name].get("value"), 0), f"{key}.{name}", "must be whole")
        for state in WORDS["state"]:
            known = (liquid, state, row["ready_ph"].get("value")) in self.curves
            self.want(known, f"{key}.ready_ph", f"readiness.toml has no {state} {liquid} to that pH")

    def known_cautions(self, names, key):
        for name in names:
            self.want(name in self.cautions, key, f"caution {name!r} is not in cautions.toml")

    def recipe(self, path):
        self.file = f"recipes/{path.name}"
        recipe = self.load(self.file)
        if not self.keys(recipe, "recipe", recipe.get("id", "?")):
            return
        if "season_litres_per_acre" in recipe:
            self.number(recipe["season_litres_per_acre"], "season_litres_per_acre")
        self.letter(recipe["letter"])
        self.known_cautions(recipe["cautions"], "cautions")
        materials = {row.get("id"): row for row in recipe["materials"]}
        self.unique([row.get("id") for row in recipe["materials"]], "materials")
        self.want(recipe["product"] in materials, "product", "is not a material")
        for row in recipe["materials"]:
            self.material(row, f"materials.{row.get('id', '?')}")
        self.unique([row.get("id") for row in recipe["steps"]], "steps")
        for row in recipe["steps"]:
            self.step(row, f"steps.{row.get('id', '?')}", materials)
        self.recipe_words(recipe, set(materials))
        self.recipe_use(recipe)

    def recipe_use(self, recipe):
        """What the recipe says of its finished input: each row with its own source and words."""
        both = ("strength_parts" in recipe) == ("strength_on" in recipe)
        self.want(both, "strength_on", "goes with strength_parts")
        shown = recipe.get("shown_for", 1)
        self.want(is_number(shown) and shown > 0, "shown_for", "must be litres above 0")
        if "ph" in recipe:
            self.number(recipe["ph"], "ph")
        for table, number, words in (("dilutions", "parts", "dilution"), ("keeping", "days", "keeping"),
                                     ("contents", "percent", "content")):
            for place, row in enumerate(recipe.get(table, [])):
                key = f"{table}[{place}]"
                if self.keys(row, table, key):
                    self.number(row[number], f"{key}.{number}")
                    self.said(f"{words}.{row['says']}" if "says" in row else "", f"{key}.says")
        for row in recipe.get("dilutions", []):
            self.said(f"use.on.{row.get('on')}", "dilutions.on")
        for row in recipe.get("keeping", []):
            sourced = row.get("days", {}).get("kind") not in ("assumption", "computed")
            self.want(sourced, "keeping.days.kind", "a guess of our own is no shelf life")
        for place, row in enumerate(recipe.get("harvest", [])):
            key = f"harvest[{place}]"
            if self.keys(row, "harvest", key):
                self.origin(row, key)
                self.whole(row, ("days",), 0, key)
                self.said(f"harvest.where.{row['where']}", f"{key}.where")
                self.said(f"harvest.rule.{row['rule']}", f"{key}.rule")
        self.unique([row.get("sign") for row in recipe.get("signs", [])], "signs")
        for row in recipe.get("signs", []):
            key = f"signs.{row.get('sign', '?')}"
            if self.keys(row, "signs", key):
                self.origin(row, key)
                self.want(row["causes"], f"{key}.causes", "names none")
                names = [("sign", row["sign"]), ("action", row["action"])]
                for part, name in names + [("cause", cause) for cause in row["causes"]]:
                    self.said(f"quality.{part}.{name}", f"{key}.{part}")

    def said(self, name, key):
        self.want(not name or name in self.words, key, f"{name} has no words in words/en.po")

    def recipe_words(self, recipe, materials):
        """What is shown of a recipe has its words, and they name nothing that it does not have."""
        shown = [f"recipe.{recipe['id']}"]
        shown += [f"material.{row.get('id')}" for row in recipe["materials"]]
        bought = {row.get("id") for row in recipe["materials"] if row.get("bought")}
        shown += [f"item.{name}" for name in sorted(bought - {"milk"})]  # milk has a line of its own
        shown += [f"step.{row.get('id')}" for row in recipe["steps"]]
        tasks = {f"task.{task.get('id')}" for row in recipe["steps"] for task in row.get("tasks", [])}
        for name in (*shown, *sorted(tasks)):
            self.want(name in self.words, name, "has no words in words/en.po")
        for name in sorted(tasks & set(self.words)):
            unknown = set(re.findall(r"{([^}]+)}", self.words[name])) - TASK_PLACES - materials
            self.want(not unknown, name, f"names {sorted(unknown)}, which {recipe['id']} has not")

    def letter(self, letter):
        capital = isinstance(letter, str) and len(letter) == 1 and "A" <= letter <= "Z"
        self.want(capital, "letter", f"{letter!r} is not one capital letter")
        other = self.letters.setdefault(str(letter), self.file)
        self.want(other == self.file, "letter", f"{letter!r} names the batches of {other} already")

    def material(self, row, key):
        if not self.keys(row, "materials", key):
            return
        self.want(row["unit"] in ("L", "kg"), f"{key}.unit", "must be L or kg")
        unit, other = self.units.setdefault(row["id"], (row["unit"], self.file))
        self.want(unit == row["unit"], f"{key}.unit", f"{row['id']} is in {unit} in {other}")
        pairs = (("density", "unit", "L"), ("bought", "role", "input"), ("fate", "role", "by-product"))
        for name, word, value in pairs:
            goes = (name in row) == (row[word] == value)
            self.want(goes, f"{key}.{name}", f"goes with {word} {value} only")
        if "density" in row:
            self.number(row["density"], f"{key}.density")
        if "fate" in row:
            self.known_cautions([row["fate"]], f"{key}.fate")

    def step(self, row, key, materials):
        if not self.keys(row, "steps", key):
            return
        self.hours(row["labour_hours"], f"{key}.labour_hours")
        for name in ("fill_fraction", "least_fill", "most_fill"):
            if name in row:
                self.number(row[name], f"{key}.{name}")
        if "forecast" in row:
            self.forecast(row["forecast"], f"{key}.forecast", row.get("sours"))
        for name in ("vessel_kind", "least_fill", "most_fill", "forecast"):
            stands = row["vessel"] == "season" or name not in row
            self.want(stands, f"{key}.{name}", "goes with vessel season only")
        self.fills(row, key)
        self.known_cautions(row["cautions"], f"{key}.cautions")
        self.keys(row["windows"], "windows", f"{key}.windows")
        for climate, dwell in row["windows"].items():
            self.dwell(dwell, f"{key}.windows.{climate}")
        sides = [(side, flow) for side in ("takes", "gives") for flow in row[side]]
        if all([self.flow(flow, side, key, materials) for side, flow in sides]):
            self.mass(row, key, materials)
        for task in row["tasks"]:
            at = f"{key}.tasks.{task.get('id', '?')}"
            if self.keys(task, "tasks", at):
                self.known_cautions(task["cautions"], at)
                for name in task["cautions"]:  # without a brief a plan says nothing of it that day
                    self.want(f"brief.{name}" in self.words, at, f"no brief.{name} in words/en.po")
                if "hours" in task:
                    self.hours(task["hours"], f"{at}.hours")

    def fills(self, row, key):
        given = {n: row[n] for n in ("least_fill", "most_fill") if isinstance(row.get(n), dict)}
        for name, number in given.items():
            self.want(number.get("unit") == "L", f"{key}.{name}.unit", "must be L")
        least, most = (given.get(n, {}).get("value") for n in ("least_fill", "most_fill"))
        if is_number(most):
            room = most > 0 and (not is_number(least) or most >= least)
            self.want(room, f"{key}.most_fill", f"{most} is not above 0, or below the least fill")

    def hours(self, row, key):
        self.number(row, key)
        good = not isinstance(row, dict) or row.get("unit") == "h"
        self.want(good, f"{key}.unit", "must be h")

    def dwell(self, row, key):
        if self.keys(row, "dwell", key):
            self.origin(row, key)
            self.ordered(row, (*WINDOW, "keeps"), key)
            self.whole(row, (*WINDOW, "keeps"), 0, key)

    def flow(self, row, side, key, materials):
        at = f"{key}.{side}.{row.get('material', '?')}"
        before = len(self.problems)
        if self.keys(row, side, at):
            self.want(row["material"] in materials, at, "is not a material")
            self.number(row["ratio"], f"{at}.ratio")
        return len(self.problems) == before

    def mass(self, row, key, materials):
        def kilograms(flow):
            density = materials[flow["material"]].get("density", {"value": 1.0})
            return flow["ratio"]["value"] * density.get("value", 1.0)

        taken, given = (sum(map(kilograms, row[side])) for side in ("takes", "gives"))
        close = abs(taken - given) <= MASS_TOLERANCE * taken
        self.want(close, key, f"mass: {taken:.4f} kg go in, {given:.4f} kg come out")

    def run(self):
        self.use_ids = {row.get("id") for row in self.tables["uses"]}
        self.rows("sources", self.source)
        self.rows("constants", lambda row, key: self.number(row, key, alone=False))
        self.rows("units", self.unit, ident="name")
        self.rows("crops", self.crop)
        self.rows("uses", self.use)
        self.rows("thermal", self.thermal, ident="crop")
        self.rows("stations", self.station)
        self.rows("onset", self.onset)
        self.rows("cautions", self.caution)
        self.rows("equipment", self.equipment, ident="item")
        self.rows("soak", self.soak, ident="crop")
        self.rows("fermentation", self.fermentation)
        self.rows("quality", self.quality, ident="sign")
        self.rows("compost", self.compost)
        self.rows("heat_rules", self.heat_rule)
        self.unique([f"{row.get('stage')}/{row.get('sign')}" for row in self.tables["quality"]], "sign")
        self.rows("removal", self.removal, ident="crop")
        self.rows("manures", self.manure)
        self.rows("readiness", self.readiness, ident="state")
        self.curves = self.readiness_order()
        for name in ("sources", "constants", "crops", "cautions", "stations", "onset", "fermentation",
                     "compost", "heat_rules"):
            self.file = f"{name}.toml"
            self.unique([row.get("id") for row in self.tables[name]], "id")
        for name in ("thermal", "soak"):
            self.file = f"{name}.toml"
            self.unique([row.get("crop") for row in self.tables[name]], "crop")
        self.file = "units.toml"
        units = self.tables["units"]
        self.unique([n for row in units for n in (row.get("name"), *row.get("aliases", []))], "name")
        recipes = sorted((self.folder / "recipes").glob("*.toml"))
        self.want(recipes, "recipes", "no recipe")
        for path in recipes:
            self.recipe(path)
        self.file = "sources.toml"
        for name in self.sources:
            used = name in self.used or name in PSEUDO_SOURCES
            self.want(used, str(name), "no row rests on this source")
        return self.problems


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--data", type=Path, default=Path(__file__).resolve().parent.parent / "data")
    parser.add_argument("--self-test", action="store_true")
    options = parser.parse_args()
    if options.self_test:
        import check_data_mistakes

        return check_data_mistakes.run(options.data)
    problems = Checker(options.data).run()
    for file, key, message in problems:
        print(f"data/{file}: {key}: {message}")
    print(f"data: {len(problems)} problems" if problems else "data: sound")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
