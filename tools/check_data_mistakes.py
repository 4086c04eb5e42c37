"""Mistakes that check_data.py must refuse, planted one by one in a copy of data/."""

import shutil
import tempfile
from pathlib import Path

import check_data

RECIPE = "recipes/lactic-serum.toml"
JUICE = "recipes/plant-juice.toml"
HEAP = "recipes/compost-heap.toml"
TEA = "recipes/manure-tea.toml"
# file, text that stands there, what it becomes, key where the problem must be reported
MISTAKES = [
    ("constants.toml", 'unit = "L/acre"', 'unit = ""', "usual-mix-per-acre.unit"),
    ("constants.toml", "low = 80", "low = 180", "usual-mix-per-acre"),
    ("constants.toml", "low = 80\n", "", "usual-mix-per-acre"),
    ("constants.toml", "value = 100\n", "value = nan\n", "usual-mix-per-acre.value"),
    ("constants.toml", 'kind = "common-practice"', 'kind = "hearsay"', "usual-mix-per-acre.kind"),
    ("constants.toml", 'source = "common-practice"', 'source = "nobody"', "usual-mix-per-acre.source"),
    ("constants.toml", 'kind = "common-practice"', 'kind = "published"', "usual-mix-per-acre.source"),
    ("constants.toml", "exact = true", "exact = true\nlow = 1", "altitude-intercept"),
    ("constants.toml", "high = 175", "hihg = 175", "usual-mix-per-acre.hihg"),
    ("constants.toml", 'id = "cup-volume"', 'id = "dose-tolerance"', "id"),
    ("sources.toml", 'id = "mayer-2010"', 'id = "mayer-2011"', "evidence-weak.source"),
    ("sources.toml", 'grade = "A"', 'grade = "AA"', "fao-56.grade"),
    ("sources.toml", "[[sources]]", "[[sources]]\n[[sources]]", "?.id"),
    ("units.toml", "factor = 0.3048", "factor = 0.0", "ft.factor"),
    ("units.toml", 'aliases = ["foot", "feet"]', 'aliases = ["foot", "inch"]', "name"),
    ("units.toml", 'dimension = "area"', 'dimension = "surface"', "m2.dimension"),
    ("crops.toml", "initial = 30", "initial = 30.5", "maize.stages[0].initial"),
    ("crops.toml", "initial = 30", "initial = -30", "maize.stages[0].initial"),
    ("crops.toml", "printed_total = 180", "printed_total = 190", "maize.stages[0].printed_total"),
    ("crops.toml", "the stages sum to 125", "the stages differ", "sorghum.stages[0].printed_total"),
    ("crops.toml", "has_fifth = true", "has_fifth = false", "maize.has_fifth"),
    ("crops.toml", "early = 5, likely = 7", "early = 8, likely = 7", "maize.emergence"),
    ("crops.toml", 'ways = ["direct"]', 'ways = ["broadcast"]', "maize.starts.ways"),
    ("crops.toml", 'starts = { ways = ["direct"]', 'start = { ways = ["direct"]', "maize.starts"),
    ("crops.toml", 'stand_in = "spinach"', 'stand_in = "okra"', "amaranth.stand_in"),
    ("crops.toml", "early = 42, likely = 49", "early = 52, likely = 49", "coffee.after_fourth.fifth"),
    ("crops.toml", 'base = { value = 10', 'base = { value = 20', "green-bean.base"),
    ("uses.toml", "early = 70, likely", "early = 170, likely", "seedling.degree_days"),
    ("thermal.toml", "[8, 0], [30, 22]", "[38, 0], [30, 22]", "maize.rate"),
    ("thermal.toml", "sum = 70", "sum = 0", "maize"),
    ("thermal.toml", 'crop = "sorghum"', 'crop = "maize"', "crop"),
    ("thermal.toml", 'counts_from = "sowing"', 'counts_from = "budding"', "maize.counts_from"),
    ("stations.toml", "min = [11.5,", "min = [31.5,", "nairobi.min"),
    ("stations.toml", "min = [11.5,", "min = [", "nairobi.min"),
    ("onset.toml", "watch_days = 30", "next_mm = 30", "two-days.watch_days"),
    ("onset.toml", 'next = "each"', 'next = "some"', "dekad-each.next"),
    ("uses.toml", 'anchor = "use:flowering"', 'anchor = "use:blossom"', "first-fruit.anchor"),
    ("uses.toml", "early = -14", "early = -4", "land-preparation"),
    ("cautions.toml", 'page = ""\n', "", "milk-heated-cooled.page"),
    ("equipment.toml", 'unit = "piece", kind', 'unit = "m", kind', "ph-strips.unit"),
    ("soak.toml", 'unit = "h"', 'unit = "min"', "maize.hours.unit"),
    ("soak.toml", 'crop = "rice"', 'crop = "maize"', "crop"),
    ("soak.toml", 'group = "cereal"', 'group = "grass"', "maize.group"),
    ("removal.toml", 'crop = "maize"', 'crop = "maise"', "maise"),
    ("removal.toml", "p2o5 = {", "phosphate = {", "maize.p2o5"),
    ("removal.toml", 'unit = "kg/t"', 'unit = "%"', "maize.n.unit"),
    ("manures.toml", 'unit = "% dry"', 'unit = "%"', "compost.n.unit"),
    ("manures.toml", 'id = "compost"', 'id = "heap"', "heap.id"),
    ("compost.toml", 'unit = "% of wet"', 'unit = "%"', "cattle-manure.moisture.unit"),
    ("compost.toml", "moisture = { value = 81, low = 81, high = 81", "moisture = { value = 100, low = 81, high = 100",
     "cattle-manure.moisture"),
    ("compost.toml", "nitrogen = { value = 2.4, low = 1.5", "nitrogen = { value = 0.0, low = 0", "cattle-manure.ratio"),
    ("compost.toml", 'id = "straw"', 'id = "stray"', "stray.id"),
    ("heat_rules.toml", "days = 15", "days = 0", "windrow.days"),
    ("heat_rules.toml", "ratio_low = 25\n", "", "us-organic.ratio_low"),
    ("heat_rules.toml", 'id = "windrow"', 'id = "window"', "window.id"),
    ("fermentation.toml", "spread = 0.25\n", "", "speed.spread"),
    ("fermentation.toml", "spread = 0.25", "spread = -0.25", "speed.spread"),
    ("fermentation.toml", 'law = "log"', 'law = "none"', "speed.spread"),
    ("fermentation.toml", 'law = "log"', 'law = "even"', "speed.law"),
    ("fermentation.toml", "value = 1\n", "value = 0\n", "speed.value"),
    ("fermentation.toml", "value = 4.8", 'value = "4.8"', "fast-min.value"),
    ("fermentation.toml", "litres = 2\n", "litres = 0\n", "vessel-2.litres"),
    ("fermentation.toml", 'id = "fast-alpha"', 'id = "fast-beta"', "id"),
    ("fermentation.toml", 'kind = "assumption"', 'kind = "published"', "speed.source"),
    ("fermentation.toml", 'unit = "1/h"', 'unit = ""', "fast-rate.unit"),
    ("quality.toml", 'verdict = "use"', 'verdict = "eat"', "clean-sour.verdict"),
    ("quality.toml", 'causes = ["lactic"]', "causes = []", "clean-sour.causes"),
    ("quality.toml", 'causes = ["lactic"]', 'causes = ["luck"]', "clean-sour.cause"),
    ("quality.toml", "overrides = false", "overrides = true", "clean-sour.overrides"),
    ("quality.toml", 'sign = "sweet"', 'sign = "clean-sour"', "sign"),
    ("readiness.toml", "celsius = 20, early = ", "celsius = 20, early = 9", "milk raw 4.2 20"),
    ("readiness.toml", "celsius = 20, early = ", "celsius = 20, eerly = ", "raw.eerly"),
    ("readiness.toml", "celsius = 20,", "celsius = 19,", "milk raw 4.2"),
    ("readiness.toml", 'state = "raw"', 'state = "sour"', "sour.state"),
    (RECIPE, 'sours = "milk"', 'sours = "cream"', "steps.milk.sours"),
    (RECIPE, "ready_ph = { value = 4.2", "ready_ph = { value = 4.3", "steps.milk.forecast.ready_ph"),
    (RECIPE, 'unit = "batches"', 'unit = "days"', "steps.milk.forecast.least_until_batches.unit"),
    (RECIPE, "published_least = { value = 3,", "published_least = { value = 3.5,", "steps.milk.forecast.published_least"),
    (RECIPE, 'fate = "curd-fate"', 'fate = "calves"', "materials.curd.fate"),
    (RECIPE, 'fate = "curd-fate"\n', "", "materials.curd.fate"),
    (RECIPE, '["clean-vessels"]', '["clean"]', "steps.soak.tasks.start-soak"),
    (RECIPE, "value = 0.35,", "value = 0.4,", "steps.soak"),
    (RECIPE, "late = 6, keeps = 8", "late = 9, keeps = 8", "steps.stand.windows.warm"),
    (RECIPE, '{ material = "rice",', '{ material = "maize",', "steps.soak.takes.maize"),
    (RECIPE, 'who = "trainer"', 'who = "child"', "steps.milk.tasks.milk-call.who"),
    (RECIPE, 'at = "start"', 'on = "start"', "steps.soak.tasks.stand-tap-water.on"),
    (RECIPE, 'id = "lactic-serum"', "id = lactic-serum", ""),
    (RECIPE, '["not-a-fertiliser",', '["a-fertiliser",', "cautions"),
    (RECIPE, 'vessel = "household"\nfill', 'vessel = "household"\nvessel_kind = "bucket"\nfill',
     "steps.stand.vessel_kind"),
    (JUICE, 'id = "sugar"\nunit = "kg"', 'id = "molasses"\nunit = "kg"', "materials.molasses.unit"),
    (JUICE, 'letter = "P"', 'letter = "B"', "letter"),
    (JUICE, 'letter = "P"', 'letter = "p"', "letter"),
    (JUICE, 'letter = "P"', 'letter = "PJ"', "letter"),
    (JUICE, 'letter = "P"\n', "", "plant-juice.letter"),
    (JUICE, "value = 1.875,", "value = 1.9,", "steps.cut"),
    ("words/en.po", 'msgctxt "caution.heap-heat"', 'msgctxt "caution.heap-hot"', "heap-heat.id"),
    ("words/en.po", 'msgctxt "item.sugar"', 'msgctxt "item.sweets"', "item.sugar"),
    ("words/en.po", 'msgctxt "task.turn-heap"', 'msgctxt "task.turn"', "task.turn-heap"),
    ("words/en.po", "mix {sugar} kg", "mix {honey} kg", "task.pack-tips"),
    (HEAP, 'vessel_kind = "heap"', 'vessel_kind = "pile"', "steps.heat.vessel_kind"),
    (HEAP, "least_fill = { value = 1000", "least_fill = { value = 100", "steps.heat.least_fill"),
    (HEAP, 'high = 1500, unit = "L"', 'high = 1500, unit = "m3"', "steps.heat.least_fill.unit"),
    (HEAP, "most_fill = { value = 1500, low = 1000", "most_fill = { value = 999, low = 900",
     "steps.heat.most_fill"),
    (HEAP, 'high = 3375, unit = "L"', 'high = 3375, unit = "kg"', "steps.heat.most_fill.unit"),
    (RECIPE, 'vessel = "household"\nfill',
     'vessel = "household"\nmost_fill = { value = 9, exact = true, unit = "L", kind = "memory",'
     ' source = "memory", page = "", note = "" }\nfill', "steps.stand.most_fill"),
    ("words/en.po", 'msgctxt "brief.heap-heat"', 'msgctxt "brief.heap-hot"',
     "steps.heat.tasks.turn-heap"),
    ("words/en.po", 'msgctxt "brief.local-rules"', 'msgctxt "brief.rules"', "steps.mix.tasks.label"),
    ("words/en.po", "spread {fresh-manure} kg", "spread {dung} kg", "task.spread-manure"),
    (HEAP, 'value = 0.5428571428571428', 'value = 0.5528571428571428', "steps.spread"),
    (HEAP, 'role = "loss"', 'role = "lost"', "materials.dried-off.role"),
    (HEAP, 'role = "loss"', 'role = "loss"\nfate = "heap-signs"', "materials.dried-off.fate"),
    (HEAP, 'high = 3.0, unit = "h", kind = "assumption", source = "assumed-here", page = "", note = "Two',
     'high = 3.0, unit = "min", kind = "assumption", source = "assumed-here", page = "", note = "Two',
     "steps.heat.tasks.turn-heap.hours.unit"),
    (TEA, 'on = "not-said"', 'on = "roots"', "dilutions.on"),
    (TEA, 'says = "poultry"', 'says = "pigs"', "dilutions[1].says"),
    (TEA, "low = 9, high = 9", "low = 99, high = 9", "dilutions[1].parts"),
    (TEA, 'source = "tea-blog-malawi"', 'source = "hearsay"', "dilutions[1].parts.source"),
    (TEA, "days = 120", "days = 120.5", "harvest[0].days"),
    (TEA, 'where = "off-soil"', 'where = "on-trees"', "harvest[1].where"),
    (TEA, 'strength_on = "soil"\n', "", "strength_on"),
    (TEA, 'verdict = "discard"', 'verdict = "eat"', "signs.putrid.verdict"),
    (TEA, 'sign = "maggots"', 'sign = "putrid"', "signs"),
    (TEA, 'causes = ["cover-failed"]', 'causes = ["luck"]', "signs.maggots.cause"),
    (TEA, 'nutrient = "nitrogen"', 'nutrient = "magic"', "contents[0].nutrient"),
    (TEA, "shown_for = 100", "shown_for = 0", "shown_for"),
    (JUICE, 'store = "room"', 'store = "shelf"', "keeping[0].store"),
    (JUICE, 'days = { value = 30, low = 30, high = 30, unit = "days", kind = "common-practice", source = "fpj-handout"',
     'days = { value = 30, low = 30, high = 30, unit = "days", kind = "assumption", source = "assumed-here"',
     "keeping.days.kind"),
    ("quality.toml", 'verdict = "extend"', 'verdict = "fix"', "sweet.verdict"),
]


def refused(folder, file, old, new, key):
    path = folder / file
    text = path.read_text(encoding="utf-8")
    if old not in text:
        return f"the text to spoil is not there: {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    problems = check_data.Checker(folder).run()
    path.write_text(text, encoding="utf-8")
    if any(at == key for _, at, _ in problems):
        return ""
    return f"not refused at {key!r}; found {problems}"


def run(data: Path) -> int:
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "data"
        shutil.copytree(data, folder)
        failures = [f"sound data refused: {p}" for p in check_data.Checker(folder).run()]
        for file, old, new, key in MISTAKES:
            answer = refused(folder, file, old, new, key)
            if answer:
                failures.append(f"{file}: {old!r} -> {new!r}: {answer}")
    for failure in failures:
        print(failure)
    print(f"check_data: {len(MISTAKES)} planted mistakes, {len(failures)} failures")
    return 1 if failures else 0
