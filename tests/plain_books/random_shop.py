#!/usr/bin/env python3
"""Writes a random but valid shop as an exchange folder, the same for the same seed.

    random_shop.py SEED OUTFOLDER

Made to be hard on the books, not to be likely: many events on few days, shares that leave units over, gifts of every
outcome, donors and hulks over the turn of a year, stock that crosses it, refunds above the price. Keeps its own simple
simulation of what is here and what is in stock, so that every rule of exchange.md is respected. Reads nothing, and
everything in it is invented.
"""
import csv
import datetime
import io
import pathlib
import random
import re
import shutil
import sys

DIGITS = {"USD": 2, "JPY": 0, "KWD": 3}

# Column names; those with a mark may be left out of the file when no line fills them.
COLUMNS = {
    "shop": "name currency hour_value? unit_of_distance?",
    "people": "person name phone? email? note?",
    "acquisitions": "acquisition date source from? price? pickup_cost? giver_basis? opening? note?",
    "machines": "tag acquisition kind make? symptom? value_then? stage? note?",
    "faults": "fault machine date symptom cause? ended? how? note?",
    "findings": "machine date step outcome fault? minutes? cost?",
    "labour": "machine? acquisition? date minutes work note?",
    "parts": "part name number? supplier?",
    "orders": "order date supplier? arrived? freight? tax? opening?",
    "order_lines": "order part quantity price for?",
    "harvested": "donor date part quantity value",
    "fitted": "machine? date part quantity from?",
    "materials": "machine date what cost",
    "listings": "machine date channel? asking sold_as? ended?",
    "offers": "machine date amount who? comes? result?",
    "sales": "machine date buyer? price sales_tax? fee? delivery? payment? place?",
    "returns": "machine date refunded note?",
    "allowances": "machine date amount sales_tax? note?",
    "parts_sold": "date part quantity price from? buyer? sales_tax? fee? place?",
    "tax_paid": "date place? amount",
    "disposals": "machine date how proceeds? hulk_value? hulk_gone?",
    "trips": "date miles purpose destination? machine? acquisition?",
    "expenses": "date category amount note?",
}

KINDS = ["push", "self-propelled", "lawn tractor", "zero-turn", "trimmer", "blower", "other"]
SOURCES = ["curb", "dump", "private", "auction", "trade-in", "other"]
WORK = ["pickup", "diagnose", "clean", "repair", "service", "test run", "list", "sell", "comeback", "other"]
STAGES_HERE = ["in the yard", "on the bench", "waiting on parts", "test run", "for sale"]
CATEGORIES = ["commissions and fees", "delivery", "car and truck", "insurance", "supplies", "rags, oil", "=tools", "Äther"]
PLACES = ["", "Corrow", "north fen", "Fenwick, lower", "Élm Bank", "-moor"]
PARTS = ["plug", "blade", "carburettor", "belt", "wheel", "coil", "filter", "10", "9"]
# Sorted by bytes these do not come as a person would count them, and some look like formulas.
ODD_TAGS = ["10", "9", "1", "02", "2", "B", "a", "Z-1", "é", "z", "ß", "~", "M 3", "M,4", 'M"5', "=6", "-7", "+8", "@9",
            "'0", "ﬀ", "𝔪", "100", "11", "A", "aa", "a b", "M10", "M9", "m9"]


def day_text(number):
    return datetime.date.fromordinal(number).isoformat()


def ordinal(year, month, day):
    return datetime.date(year, month, day).toordinal()


class Turns:
    """One machine's sales, returns and disposal, as they were drawn: each is (day, what, line of the table)."""

    def __init__(self, acquired):
        self.acquired = acquired
        self.list = []

    def here_at_some_time(self, day):
        here = True
        since = self.acquired
        for when, what, _ in self.list:
            if here and since <= day <= when:
                return True
            here = what == "return"
            since = when
        return here and since <= day

    def standing_sale(self, day):
        """The sale that stands at the end of the day."""
        sale = None
        for when, what, row in self.list:
            if when <= day:
                sale = row if what == "sale" else None
        return sale


class RandomShop:
    def __init__(self, seed):
        self.dice = random.Random(seed)
        self.tables = {name: [] for name in COLUMNS}
        self.turns = {}
        self.lots = {}
        self.givers = {}  # about what each machine of a lot had cost its giver; 0: not a gift of that sort
        self.currency = self.dice.choice(["USD", "USD", "USD", "JPY", "KWD"])
        self.digits = DIGITS[self.currency]
        years = self.dice.randint(2, 4)
        earliest, latest = (2021, 2026) if self.currency == "USD" else (2014, 2030)
        first = self.dice.randint(earliest, latest - years + 1)
        self.first_day = ordinal(first, 1, 1)
        self.last_day = ordinal(first + years - 1, 12, 31)
        # A few days on which much happens, the ends of the years and the days on which mileage rates change among them.
        self.busy = [ordinal(year, *day) for year in range(first, first + years) for day in ((1, 1), (6, 30), (7, 1), (12, 31))]
        self.busy += [self.dice.randint(self.first_day, self.last_day) for _ in range(self.dice.randint(1, 6))]
        self.crowd = self.dice.choice([0.1, 0.4, 0.7, 0.95])
        self.huge = self.dice.random() < 0.04
        self.names = 0
        self.make()

    # --- draws ---

    def chance(self, likely):
        return self.dice.random() < likely

    def pick_day(self, after=None, before=None):
        low = self.first_day if after is None else after
        high = self.last_day if before is None else before
        if self.chance(0.15):
            return low
        busy = [day for day in self.busy if low <= day <= high]
        if busy and self.chance(self.crowd):
            return self.dice.choice(busy)
        return self.dice.randint(low, max(low, high))

    def number(self):
        """An amount in minor units: small ones leave units over and make ties."""
        if self.huge and self.chance(0.2):
            return self.dice.randint(1, 10**11)
        if self.chance(0.005):  # enough for a year's profit above any wage base
            return self.dice.randint(10**7, 4 * 10**7)
        low, high = self.dice.choice([(0, 3), (1, 30), (1, 30), (50, 2000), (50, 2000), (1000, 60000)])
        return self.dice.randint(low, high)

    def text(self, amount):
        """ "Amounts are decimals in the shop's currency with at most its digits": at times with fewer."""
        if self.digits == 0:
            return str(amount)
        whole = f"{amount // 10**self.digits}.{amount % 10**self.digits:0{self.digits}d}"
        return whole.rstrip("0").rstrip(".") if self.chance(0.3) else whole

    def money(self):
        return self.text(self.number())

    def maybe_money(self, likely):
        return self.money() if self.chance(likely) else ""

    def maybe_zero(self, likely=0.1):
        """ "0 in a cell that must be empty counts as empty" """
        return self.dice.choice(["0", self.text(0)]) if self.chance(likely) else ""

    def miles(self):
        tenths = self.dice.choice([self.dice.randint(0, 20), self.dice.randint(1, 900), 10 * self.dice.randint(1, 60)])
        return str(tenths // 10) if tenths % 10 == 0 and self.chance(0.5) else f"{tenths // 10}.{tenths % 10}"

    def new_name(self, prefix):
        self.names += 1
        return f"{prefix}{self.names}"

    def add(self, table, **row):
        self.tables[table].append(row)
        return row

    # --- the shop ---

    def make(self):
        self.add("shop", name="Wendlethorp Garage", currency=self.currency, hour_value=self.maybe_money(0.5),
                 unit_of_distance=self.dice.choice(["", "mi", "km"]))
        self.add("people", person="P1", name="Odda Venn")
        for part in PARTS[: self.dice.randint(2, len(PARTS))]:
            self.add("parts", part=part, name=f"some {part}")
        self.make_machines()
        for tag in list(self.turns):
            self.live(tag)
        self.make_orders()
        self.shop_in_general()
        # What depends on the order of the lines comes after it was drawn.
        for name, rows in self.tables.items():
            if name != "shop" and self.chance(0.8):
                self.dice.shuffle(rows)
        self.use_parts()
        self.give_stages()
        self.mark_opening()

    def make_machines(self):
        count = self.dice.choice([3, 4, 5, 6, 8, 12, 20, 40])
        style = self.dice.choice(["numbers", "letters", "odd"])
        if style == "odd":
            tags = self.dice.sample(ODD_TAGS, len(ODD_TAGS))[:count]
        else:
            tags = [("" if style == "numbers" else "M") + str(number) for number in range(1, count + 1)]
        while tags:
            size = min(len(tags), self.dice.choice([1, 1, 2, 3, 3, 5]))
            lot, tags = tags[:size], tags[size:]
            self.acquire(lot)

    def acquire(self, lot):
        name = self.new_name("A")
        day = self.pick_day(before=self.dice.randint(self.first_day, self.last_day) if self.chance(0.7) else None)
        gift = self.chance(0.35)
        row = self.add("acquisitions", acquisition=name, date=day_text(day), source="gift" if gift else self.dice.choice(SOURCES))
        row["from"] = self.dice.choice(["", "P1"])
        row["price"] = self.maybe_zero() if gift else self.maybe_money(0.85)
        row["pickup_cost"] = self.maybe_money(0.3)
        row["giver_basis"] = self.maybe_money(0.85) if gift else self.maybe_zero(0.05)
        self.lots[name] = (day, lot)
        # Most that was given was worth less than its giver had paid, with room between for a price that is neither gain
        # nor loss.
        self.givers[name] = 0
        if gift and self.chance(0.6):
            self.givers[name] = self.dice.randint(3000, 30000)
            row["giver_basis"] = self.text(self.givers[name] * len(lot))
        values = self.dice.choice(["each", "each", "one lacks", "none", "same", "zero"])
        for tag in lot:
            value = self.money()
            if values == "none" or (values == "one lacks" and tag == lot[-1]):
                value = ""
            elif values == "same":
                value = self.text(700)
            elif values == "zero" and self.chance(0.7):
                value = "0"
            elif self.givers[name] and self.chance(0.8):
                value = self.text(self.dice.randint(0, self.givers[name] // 2))
            if gift and value and row["giver_basis"] and self.chance(0.1):
                value = row["giver_basis"]
            self.add("machines", tag=tag, acquisition=name, kind=self.dice.choice(KINDS), value_then=value)
            self.turns[tag] = Turns(day)

    def giver_of(self, tag):
        return self.givers[next(row["acquisition"] for row in self.tables["machines"] if row["tag"] == tag)]

    # --- one machine's life ---

    def live(self, tag):
        turns = self.turns[tag]
        day = turns.acquired
        here = True
        while True:
            if not here:
                if not self.chance(0.8 if self.giver_of(tag) else 0.5):
                    break
                day = self.pick_day(after=day)
                self.bring_back(tag, day)
                here = True
                continue
            ending = self.dice.choices(["stay", "sell", "scrapped", "parted out", "kept"], [15, 50, 8, 22, 8])[0]
            if ending == "stay":
                break
            day = self.pick_day(after=day)
            if ending == "sell":
                self.sell(tag, day)
                here = False
                continue
            self.dispose(tag, day, ending)
            break
        self.spend(tag)
        self.allow(tag)
        self.show(tag)

    def sell(self, tag, day):
        row = self.add("sales", machine=tag, date=day_text(day), buyer=self.dice.choice(["", "P1"]), place=self.dice.choice(PLACES))
        row["price"] = self.money()
        if self.giver_of(tag) and self.chance(0.7):
            row["price"] = self.text(self.dice.randint(0, self.giver_of(tag) * 3 // 2))
        row["sales_tax"] = self.maybe_money(0.5)
        row["fee"] = self.maybe_money(0.3)
        row["delivery"] = self.maybe_money(0.3)
        self.turns[tag].list.append((day, "sale", row))

    def bring_back(self, tag, day):
        sale = self.turns[tag].list[-1][2]
        refunded = self.dice.choice([sale["price"], self.money(), self.money()])
        row = self.add("returns", machine=tag, date=day_text(day), refunded=refunded)
        self.turns[tag].list.append((day, "return", row))

    def dispose(self, tag, day, how):
        row = self.add("disposals", machine=tag, date=day_text(day), how=how)
        row["proceeds"] = self.maybe_zero() if how == "kept" else self.maybe_money(0.6)
        row["hulk_value"] = self.maybe_zero(0.05)
        row["hulk_gone"] = ""
        self.turns[tag].list.append((day, how, row))
        if how != "parted out":
            return
        row["hulk_value"] = self.dice.choice(["", "0", self.money(), self.money()])
        row["hulk_gone"] = self.dice.choice(["", "here", day_text(self.pick_day(after=day)), day_text(self.pick_day(after=day))])
        if row["hulk_gone"] == "here":
            row["proceeds"] = self.maybe_zero()
        worthless = self.chance(0.1)
        for _ in range(self.dice.choice([0, 1, 1, 2, 3, 5])):
            when = self.pick_day(after=day)
            if self.chance(0.5):
                early = self.pick_day(after=self.came_in_last(tag), before=day)
                if self.chance(0.15):  # before it was sold and came back
                    early = self.pick_day(after=self.turns[tag].acquired, before=day)
                when = early if self.turns[tag].here_at_some_time(early) else when
            self.add("harvested", donor=tag, date=day_text(when), part=self.any_part(), quantity=self.quantity(),
                     value="0" if worthless else self.money())

    def came_in_last(self, tag):
        return max([self.turns[tag].acquired] + [day for day, what, _ in self.turns[tag].list if what == "return"])

    def spend(self, tag):
        acquired = self.turns[tag].acquired
        for _ in range(self.dice.choice([0, 0, 1, 2, 4])):
            self.add("materials", machine=tag, date=day_text(self.pick_day(acquired)), what="paint", cost=self.money())
        for _ in range(self.dice.choice([0, 0, 1, 2])):
            self.add("findings", machine=tag, date=day_text(self.pick_day(acquired)), step="welding", outcome="done",
                     minutes=self.dice.choice(["", "7"]), cost=self.maybe_money(0.7))
        for _ in range(self.dice.choice([0, 1, 2, 3])):
            self.add("labour", machine=tag, date=day_text(self.pick_day(acquired)), minutes=self.minutes(),
                     work=self.dice.choice(WORK))
        for _ in range(self.dice.choice([0, 0, 1, 2])):
            self.add("trips", date=day_text(self.pick_day(acquired)), miles=self.miles(), purpose="fetch", machine=tag)

    def minutes(self):
        return str(self.dice.choice([0, 1, 7, 20, 45, 60, self.dice.randint(1, 500)]))

    def allow(self, tag):
        for _ in range(self.dice.choice([0, 0, 0, 1, 2])):
            day = self.pick_day(self.turns[tag].acquired)
            sale = self.turns[tag].standing_sale(day)
            if sale is None:
                continue
            self.add("allowances", machine=tag, date=day_text(day), amount=self.money(),
                     sales_tax=self.dice.choice(["", self.money(), sale["sales_tax"]]))

    def show(self, tag):
        """What the stage depends on."""
        acquired = self.turns[tag].acquired
        for _ in range(self.dice.choice([0, 0, 1, 2])):
            day = self.pick_day(acquired)
            self.add("listings", machine=tag, date=day_text(day), asking=self.money(),
                     ended=day_text(self.pick_day(day)) if self.chance(0.4) else "")
        for _ in range(self.dice.choice([0, 0, 0, 1])):
            day = self.pick_day(acquired)
            row = self.add("faults", fault=self.new_name("F"), machine=tag, date=day_text(day), symptom="dies when hot")
            if self.chance(0.5):
                row["ended"] = day_text(self.pick_day(day))
                row["how"] = self.dice.choice(["mended", "given up", "mistaken"])

    # --- parts ---

    def any_part(self):
        return self.dice.choice(self.tables["parts"])["part"]

    def quantity(self):
        return str(self.dice.choice([1, 1, 2, 3, 7]))

    def make_orders(self):
        # In some shops an order has the name of a machine; what points at that name then points at the order.
        free = [tag for tag in self.turns] if self.chance(0.1) else []
        for _ in range(self.dice.choice([0, 2, 4, 8, 15])):
            name = free.pop() if free else self.new_name("O")
            day = self.pick_day()
            # Under way for a while, at times over the end of the year; some never arrive.
            arrived = self.dice.choice([day, self.pick_day(day), min(self.last_day, day + self.dice.randint(0, 20))])
            row = self.add("orders", order=name, date=day_text(day), arrived=day_text(arrived) if self.chance(0.9) else "",
                           supplier=self.dice.choice(["", "P1"]))
            row["freight"] = self.maybe_money(0.6)
            row["tax"] = self.maybe_money(0.3)
            free_of_charge = self.chance(0.15)
            for _ in range(self.dice.choice([1, 1, 2, 3, 5])):
                self.add("order_lines", order=name, part=self.any_part(), quantity=self.quantity(),
                         price="0" if free_of_charge or self.chance(0.1) else self.money())

    def receipts(self):
        """What comes into stock, in the order in which it goes out again."""
        arrived = {row["order"]: row["arrived"] for row in self.tables["orders"] if row["arrived"]}
        found = []
        for line, row in enumerate(self.tables["order_lines"]):
            if row["order"] in arrived:
                found.append([arrived[row["order"]], 0, line, row["part"], ("order", row["order"]), int(row["quantity"])])
        for line, row in enumerate(self.tables["harvested"]):
            found.append([row["date"], 1, line, row["part"], ("donor", row["donor"]), int(row["quantity"])])
        return sorted(found)

    def use_parts(self):
        """Draws uses, and drops those that would take what is not in stock on their day."""
        receipts = self.receipts()
        orders = {row["order"] for row in self.tables["orders"]}
        wanted = []
        for day, _, _, part, source, quantity in receipts:
            for _ in range(self.dice.choice([0, 1, 1, 2])):
                row = {"date": day_text(self.pick_day(datetime.date.fromisoformat(day).toordinal())), "part": part}
                row["quantity"] = str(self.dice.randint(1, quantity))
                row["from"] = source[1] if self.chance(0.4) else ""
                wanted.append(("parts_sold" if self.chance(0.25) else "fitted", row))
        self.dice.shuffle(wanted)
        for table, row in wanted:
            if table == "parts_sold":
                row.update(price=self.money(), buyer="", sales_tax=self.maybe_money(0.5), fee=self.maybe_money(0.3),
                           place=self.dice.choice(PLACES))
            else:
                in_by_then = [tag for tag, turns in self.turns.items() if day_text(turns.acquired) <= row["date"]]
                row["machine"] = "" if not in_by_then or self.chance(0.15) else self.dice.choice(in_by_then)
        wanted.sort(key=lambda use: (use[1]["date"], use[0]))  # fitted before sold; within a day by line
        kept = []
        for table, row in wanted:
            source = None
            if row["from"]:
                source = ("order" if row["from"] in orders else "donor", row["from"])
            stock = [
                receipt
                for receipt in receipts
                if receipt[0] <= row["date"] and receipt[3] == row["part"] and source in (None, receipt[4])
            ]
            left = int(row["quantity"])
            if sum(receipt[5] for receipt in stock) < left:
                continue
            for receipt in stock:
                taken = min(left, receipt[5])
                receipt[5] -= taken
                left -= taken
            kept.append((table, row))
        # The lines of a day stay in their order; the days may come in any.
        days = {row["date"] for _, row in kept}
        rank = {day: self.dice.random() for day in sorted(days)} if self.chance(0.8) else {day: 0 for day in days}
        kept.sort(key=lambda use: rank[use[1]["date"]])
        for table, row in kept:
            self.tables[table].append(row)

    # --- the shop in general ---

    def shop_in_general(self):
        for name, (day, _) in self.lots.items():
            for _ in range(self.dice.choice([0, 0, 1, 2])):
                self.add("labour", acquisition=name, date=day_text(self.pick_day(day)), minutes=self.minutes(),
                         work=self.dice.choice(["pickup", "pickup", "other", "repair"]))
            for _ in range(self.dice.choice([0, 0, 1])):
                self.add("trips", date=day_text(self.pick_day(day)), miles=self.miles(), purpose="fetch", acquisition=name)
        for _ in range(self.dice.choice([0, 1, 3])):
            self.add("labour", date=day_text(self.pick_day()), minutes=self.minutes(), work="other")
        for _ in range(self.dice.choice([0, 1, 3])):
            self.add("trips", date=day_text(self.pick_day()), miles=self.miles(), purpose="supplies")
        for _ in range(self.dice.choice([0, 2, 5, 10])):
            self.add("expenses", date=day_text(self.pick_day()), category=self.dice.choice(CATEGORIES), amount=self.money())
        for _ in range(self.dice.choice([0, 0, 1, 3])):
            self.add("tax_paid", date=day_text(self.pick_day()), place=self.dice.choice(PLACES), amount=self.money())
        if self.currency == "USD" and self.chance(0.03):  # a day without a published rate
            self.add("trips", date=self.dice.choice(["2017-12-31", "2027-01-01"]), miles=self.miles(), purpose="supplies")

    def give_stages(self):
        for row in self.tables["machines"]:
            turns = self.turns[row["tag"]].list
            last = turns[-1][1] if turns else "return"
            if last == "return":
                row["stage"] = self.dice.choice(["", "", *STAGES_HERE])
            else:
                row["stage"] = self.dice.choice(["", {"sale": "sold"}.get(last, last)])

    def mark_opening(self):
        """Only in the year of the shop's first date: "the earliest `date` of all tables; an order is in on the day it
        arrived, never if it did not"."""
        first_year = min(row["date"] for rows in self.tables.values() for row in rows if "date" in row)[:4]
        for row in self.tables["acquisitions"]:
            row["opening"] = "yes" if row["date"][:4] == first_year and self.chance(0.3) else ""
        for row in self.tables["orders"]:
            row["opening"] = "yes" if row["arrived"][:4] == first_year and self.chance(0.3) else ""

    # --- writing ---

    def write(self, folder):
        folder = pathlib.Path(folder)
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir(parents=True)
        for name, rows in self.tables.items():
            if not rows and self.chance(0.7):
                continue
            columns = []
            for column in COLUMNS[name].split():
                bare = column.rstrip("?")
                if column == bare or any(row.get(bare, "") for row in rows) or self.chance(0.3):
                    columns.append(bare)
            if self.chance(0.3):
                self.dice.shuffle(columns)
            write_table(folder / f"{name}.csv", columns, rows, bom=self.chance(0.1), ending=self.dice.choice(["\n", "\r\n"]))


def guarded(text):
    """A text that a spreadsheet would run is written with an apostrophe before it, and so is one of apostrophes before
    such a start."""
    return "'" + text if re.match(r"'*[=+\-@\t\r]", text) else text


def write_table(path, columns, rows, bom=False, ending="\n"):
    out = io.StringIO()
    writer = csv.writer(out, lineterminator=ending)
    writer.writerow(columns)
    for row in rows:
        writer.writerow([guarded(row.get(column, "")) for column in columns])
    path.write_bytes((("\ufeff" if bom else "") + out.getvalue()).encode())


def main(arguments):
    if len(arguments) != 2 or not arguments[0].isdigit():
        print(__doc__, file=sys.stderr)
        return 2
    RandomShop(int(arguments[0])).write(arguments[1])
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
