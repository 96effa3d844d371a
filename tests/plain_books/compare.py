#!/usr/bin/env python3
"""Holds the program's books against those worked out plainly from the specification, over random shops.

    compare.py [FIRST LAST]        seeds FIRST to LAST (1 to 200); exit 1 if anything differs
    compare.py --shrink SEED OUT   the smallest folder that still shows the first difference of that seed
    compare.py --folder FOLDER     one exchange folder

For each seed a shop is made (random_shop.py) and imported; `machines --json`, and `books YEAR --json` from the year
before the first to the year after the last, are compared field by field with plain_books.py. A program that has no
`books` is compared without. SECONDPULL_CLI names the program; it is looked for in build/bin otherwise.
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import plain_books
import random_shop


def program():
    if "SECONDPULL_CLI" in os.environ:
        return os.environ["SECONDPULL_CLI"]
    for place in pathlib.Path(__file__).resolve().parents:
        if (place / "build/bin/secondpull-cli").exists():
            return str(place / "build/bin/secondpull-cli")
    sys.exit("There is no secondpull-cli: build it, or name it in SECONDPULL_CLI.")


def run(*arguments):
    return subprocess.run([CLI, *map(str, arguments)], capture_output=True, text=True, check=False)


class Difference:
    def __init__(self, place, theirs, plain):
        self.place = place  # words: ("machines", "cost_basis", "#M1"); the first two say what kind of difference it is
        self.theirs = theirs
        self.plain = plain

    def kind(self):
        return self.place[:2]

    def __str__(self):
        return f"{' '.join(self.place)}: the program {self.theirs}, plainly {self.plain}"


def compare_objects(what, who, theirs, plain):
    if theirs == plain and list(theirs) == list(plain):
        return []
    found = [Difference((what, key, who), theirs.get(key, "nothing"), plain.get(key, "nothing"))
             for key in dict.fromkeys([*plain, *theirs])
             if theirs.get(key, "nothing") != plain.get(key, "nothing")
             or type(theirs.get(key)) is not type(plain.get(key))]
    return found or [Difference((what, "order of keys", who), list(theirs), list(plain))]


def answer_of(what, *arguments):
    """What the program printed, or its refusal as a Difference of its own."""
    ran = run(*arguments)
    if ran.returncode not in (0, 1):
        return None, [Difference((what, "exit status", ""), f"{ran.returncode}: {ran.stderr.strip()}", "0 or 1")]
    return ran, []


def compare_answers(what, theirs, plain_of):
    """One command. `plain_of` works it out; a day without a rate has to be refused with status 1, naming the day."""
    try:
        plain = plain_of()
    except plain_books.NoRate as refusal:
        if theirs.returncode != 1 or not any(word.strip(".,:") in UNPUBLISHED for word in theirs.stderr.split()):
            return [Difference((what, "refusal", ""), f"status {theirs.returncode}: {theirs.stderr.strip()}", refusal)]
        if theirs.stdout:
            return [Difference((what, "refusal", ""), theirs.stdout, "nothing on standard output")]
        return []
    if theirs.returncode != 0:
        return [Difference((what, "refusal", ""), f"status {theirs.returncode}: {theirs.stderr.strip()}", "an answer")]
    try:
        answer = json.loads(theirs.stdout)
    except json.JSONDecodeError as problem:
        return [Difference((what, "json", ""), problem, "one JSON value")]
    if isinstance(plain, dict):
        return compare_objects("books", str(plain["year"]), answer, plain)
    tags = [machine["tag"] for machine in plain]
    if [machine["tag"] for machine in answer] != tags:
        return [Difference((what, "tags", ""), [machine["tag"] for machine in answer], tags)]
    found = []
    for one, other in zip(answer, plain):
        found += compare_objects(what, "#" + one["tag"], one, other)
    return found


UNPUBLISHED = ("2017-12-31", "2027-01-01")  # the days without a rate that random_shop.py knows


def compare_folder(folder, work):
    """All differences of one exchange folder. `work` is a folder for the shop."""
    shop_folder = pathlib.Path(work) / "shop"
    shutil.rmtree(shop_folder, ignore_errors=True)
    took = run("import", folder, "--shop", shop_folder)
    if took.returncode != 0:
        return [Difference(("import", "refused", ""), took.stderr.strip(), "taken in")]
    shop = plain_books.Shop(folder)
    ran, found = answer_of("machines", "machines", "--json", "--shop", shop_folder)
    if ran:
        found += compare_answers("machines", ran, lambda: plain_books.machines(shop))
    years = [int(day[:4]) for day in shop.days()]
    for year in range(min(years) - 1, max(years) + 2) if years else []:
        if HAS_BOOKS:
            ran, refused = answer_of("books", "books", year, "--json", "--shop", shop_folder)
            found += refused
            if ran:
                found += compare_answers("books", ran, lambda: plain_books.books(shop, year))
        found += unbalanced(shop, year)
    return found


def unbalanced(shop, year):
    """Whether cost of goods by stock and by movements are two things in the plain books themselves."""
    try:
        identity = plain_books.books(shop, year)["identity"]
    except plain_books.NoRate:
        return []
    return [] if identity == "holds" else [Difference(("books", "plain identity", str(year)), "", identity)]


# --- shrinking --------------------------------------------------------------------------------------------------------


def names(row, name):
    return any(row.get(column) == name for column in ("acquisition", "tag", "machine", "donor", "order", "part", "from"))


def shrink(folder, work, out):
    """Takes lines and cells away as long as a difference of the first one's kind stays."""
    first = compare_folder(folder, work)
    if not first:
        return []
    kind = first[0].kind()
    tables = {}
    for path in sorted(pathlib.Path(folder).glob("*.csv")):
        rows = plain_books.read_table(folder, path.stem)
        if rows:
            tables[path.stem] = [{key: cell for key, cell in row.items() if key != "line"} for row in rows]

    def shows(trial):
        shutil.rmtree(out, ignore_errors=True)
        pathlib.Path(out).mkdir(parents=True)
        for name, rows in trial.items():
            if rows:
                random_shop.write_table(pathlib.Path(out) / f"{name}.csv", list(rows[0]), rows)
        try:
            found = compare_folder(out, work)
        except (AssertionError, KeyError, IndexError, ValueError):  # no longer a valid shop
            return False
        return any(difference.kind() == kind for difference in found)

    def without_names():
        """An acquisition, a machine, an order or a part goes with every line that names it."""
        for table, column in (("acquisitions", "acquisition"), ("machines", "tag"), ("orders", "order"), ("parts", "part")):
            for name in [row[column] for row in tables.get(table, [])]:
                trial = {one: [row for row in rows if not names(row, name)] for one, rows in tables.items()}
                if shows(trial):
                    tables.update(trial)
                    yield True

    def without_rows():
        for name in list(tables):
            size = len(tables[name])
            while size >= 1 and name != "shop":
                start = 0
                while start < len(tables[name]):
                    trial = {**tables, name: tables[name][:start] + tables[name][start + size :]}
                    if shows(trial):
                        tables.update(trial)
                        yield True
                    else:
                        start += size
                size //= 2

    def without_cells():
        for name, rows in tables.items():
            for index, row in enumerate(rows):
                for column in row:
                    for simpler in ("", "0", "1"):
                        if row[column] in ("", "0", simpler) or (simpler == "1" and len(row[column]) == 1):
                            break
                        changed = [*rows[:index], {**row, column: simpler}, *rows[index + 1 :]]
                        if shows({**tables, name: changed}):
                            row[column] = simpler
                            yield True
                            break

    while any([*without_names(), *without_rows(), *without_cells()]):
        pass
    shows(tables)
    return compare_folder(out, work)


def main(arguments):
    with tempfile.TemporaryDirectory() as work:
        folder = pathlib.Path(work) / "folder"
        if len(arguments) == 3 and arguments[0] == "--shrink":
            random_shop.RandomShop(int(arguments[1])).write(folder)
            found = shrink(folder, work, arguments[2])
            print(*found, sep="\n")
            return 1 if found else 0
        if len(arguments) == 2 and arguments[0] == "--folder":
            found = compare_folder(arguments[1], work)
            print(*found, sep="\n")
            return 1 if found else 0
        first, last = map(int, arguments) if len(arguments) == 2 else (1, 200)
        differing = 0
        for seed in range(first, last + 1):
            random_shop.RandomShop(seed).write(folder)
            found = compare_folder(folder, work)
            differing += bool(found)
            for difference in found:
                print(f"seed {seed}: {difference}", flush=True)
    print(f"{last - first + 1} shops, {differing} of them with differences{'' if HAS_BOOKS else '; without books'}.")
    return 1 if differing else 0


CLI = program() if __name__ == "__main__" else os.environ.get("SECONDPULL_CLI", "")
HAS_BOOKS = CLI != "" and any(line.split()[:1] == ["books"] for line in run("--help").stdout.splitlines())

if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
