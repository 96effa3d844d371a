#!/usr/bin/env python3
"""The books of a shop worked out again, slowly and plainly, straight from the written specification.

    plain_books.py FOLDER machines          what `secondpull-cli machines --json` has to print
    plain_books.py FOLDER books YEAR        what `secondpull-cli books YEAR --json` has to print

FOLDER is an exchange folder that breaks none of the rules of exchange.md: nothing is checked here that the import checks.
Shares no code and no idea with core/books: every event of the shop is replayed day by day, parts are single pieces, and
a figure of a year is what the replay had written down for that year. Whole numbers and fractions only.
Sentences in quotation marks are those of money-model.md, and of exchange.md where it says (exchange).
Exit status 1: a trip on a day without a published rate, with a sentence on standard error.
"""
import csv
import datetime
import json
import pathlib
import re
import sys
from fractions import Fraction

# "ISO 4217: 2 decimals for USD, 0 for JPY, 3 for KWD"
DIGITS = {"JPY": 0, "KWD": 3}

# IRS standard mileage rates, cents a mile, business, found by the date of the trip; second hand.
MILEAGE = [  # from, to, cents a mile
    ("2018-01-01", "2018-12-31", "54.5"),
    ("2019-01-01", "2019-12-31", "58"),
    ("2020-01-01", "2020-12-31", "57.5"),
    ("2021-01-01", "2021-12-31", "56"),
    ("2022-01-01", "2022-06-30", "58.5"),
    ("2022-07-01", "2022-12-31", "62.5"),
    ("2023-01-01", "2023-12-31", "65.5"),
    ("2024-01-01", "2024-12-31", "67"),
    ("2025-01-01", "2025-12-31", "70"),
    ("2026-01-01", "2026-06-30", "72.5"),
    ("2026-07-01", "2026-12-31", "76"),
]

# Social Security wage bases, in dollars; second hand.
WAGE_BASE = {2022: 147_000, 2023: 160_200, 2024: 168_600, 2025: 176_100, 2026: 184_500}


class NoRate(Exception):
    """A trip on a day for which no mileage rate is published."""


# --- arithmetic -------------------------------------------------------------------------------------------------------


def rounded(value):
    """ "A rate times an amount rounds half away from zero, once." """
    value = Fraction(value)
    twice = abs(value) * 2
    whole = (twice.numerator + twice.denominator) // (2 * twice.denominator)
    return whole if value >= 0 else -whole


def split(total, weights):
    """Shares of `total` by largest remainder."""
    if total < 0:  # "a negative sum is split as its positive twin with the signs turned"
        return [-share for share in split(-total, weights)]
    if sum(weights) == 0:  # "weights all zero mean equal shares"
        weights = [1] * len(weights)
    exact = [Fraction(total * weight, sum(weights)) for weight in weights]
    shares = [share.numerator // share.denominator for share in exact]  # "floor every share"
    # "then hand the left-over units to the largest remainders, ties to the earlier line"
    order = sorted(range(len(weights)), key=lambda i: (shares[i] - exact[i], i))
    for i in order[: total - sum(shares)]:
        shares[i] += 1
    assert sum(shares) == total  # "the parts always add up to the whole"
    return shares


def scaled(text, digits):
    """A decimal as a whole number of units of 10^-digits; an empty cell is 0."""
    if not text:
        return 0
    whole, _, after = text.partition(".")
    assert len(after) <= digits
    return int(whole + after.ljust(digits, "0"))


def decimal(value, digits):
    """A whole number of units of 10^-digits as a decimal."""
    sign = "-" if value < 0 else ""
    if digits == 0:
        return f"{sign}{abs(value)}"
    return f"{sign}{abs(value) // 10**digits}.{abs(value) % 10**digits:0{digits}d}"


def hours_text(minutes):
    return decimal(rounded(Fraction(minutes * 100, 60)), 2)


# --- reading ----------------------------------------------------------------------------------------------------------


def read_table(folder, name):
    """The lines of a table in their order: "Lines keep the order they were entered or imported in." """
    path = pathlib.Path(folder) / f"{name}.csv"
    if not path.exists():  # "an absent file is an empty table" (exchange)
        return []
    with path.open(encoding="utf-8-sig", newline="") as file:
        lines = list(csv.reader(file))
    header = lines[0]
    table = []
    for number, cells in enumerate(lines[1:], start=2):
        # "A cell that a spreadsheet would run as a formula (it starts with = + - @, tab or CR) is written so that it
        # does not run": with an apostrophe, which reading takes off.
        cells = [cell[1:] if re.match(r"'+[=+\-@\t\r]", cell) else cell for cell in cells]
        table.append({**dict(zip(header, cells)), "line": number})
    return table


TABLES = (
    "shop acquisitions machines faults findings labour orders order_lines harvested fitted materials listings sales returns "
    "allowances parts_sold tax_paid disposals trips expenses"
).split()


class Shop:
    """The tables, and what can be said of a line without the lines of other days."""

    def __init__(self, folder):
        for name in TABLES:
            setattr(self, name, read_table(folder, name))
        self.currency = self.shop[0]["currency"]
        self.digits = DIGITS.get(self.currency, 2)
        # "in order of tag" and "order of tag is order of UTF-8 bytes" (exchange)
        self.tags = sorted((row["tag"] for row in self.machines), key=lambda tag: tag.encode())
        self.machine_row = {row["tag"]: row for row in self.machines}
        self.acquisition_of = {}
        self.machines_of = {row["acquisition"]: [] for row in self.acquisitions}
        for row in self.machines:
            self.machines_of[row["acquisition"]].append(row["tag"])
        for row in self.acquisitions:
            for tag in self.machines_of[row["acquisition"]]:
                self.acquisition_of[tag] = row

    def money(self, row, column):
        return scaled(row.get(column, ""), self.digits)

    def text(self, amount):
        return decimal(amount, self.digits)

    def over_lot(self, acquisition, total):
        """ "split over its machines in proportion to the fair market value that the owner gave each at that time; if any
        of them has no value, equally." Also: "split over its machines, line by line, as its price is." """
        tags = self.machines_of[acquisition]
        values = [self.machine_row[tag].get("value_then", "") for tag in tags]
        if any(value == "" for value in values):
            weights = [1] * len(tags)
        else:
            weights = [scaled(value, self.digits) for value in values]
        return dict(zip(tags, split(total, weights)))

    def trip_cost(self, row):
        """ "its trips x the mileage rate on the day"; "A trip's cost is rounded trip by trip, here and in the year." """
        if self.currency != "USD":  # "Outside the US (any currency but USD) [...] trips cost nothing"
            return 0
        for first, last, cents in MILEAGE:
            if first <= row["date"] <= last:
                return rounded(Fraction(row["miles"]) * Fraction(cents))
        # "A date without a published rate: refused with a sentence, never guessed."
        raise NoRate(f"No mileage rate is published for {row['date']}, the day of a trip.")

    def days(self):
        found = {row["date"] for name in TABLES for row in getattr(self, name) if "date" in row}
        found |= {row["arrived"] for row in self.orders if row.get("arrived")}
        found |= {row["hulk_gone"] for row in self.disposals if row.get("hulk_gone", "here") not in ("", "here")}
        return sorted(found)


def of_day(table, day):
    return [row for row in table if row["date"] == day]


# --- the replay -------------------------------------------------------------------------------------------------------


class Piece:
    """One piece of a part. Stock is never more than a list of these."""

    def __init__(self, part, cost, received, kind, line, source):
        self.part = part
        self.cost = cost
        self.received = received  # the day from which it can be fitted
        self.kind = kind  # 0: a line of an order, 1: a harvested line
        self.line = line
        self.source = source  # ("order", name) or ("donor", tag)
        self.used = False


class Machine:
    def __init__(self, tag):
        self.tag = tag
        self.where = "not in"  # in; sold; gone (scrapped, or the hulk is gone); kept
        self.carried = 0  # what a gift is carried at: l, or what its last sale settled
        self.low = 0  # l
        self.high = 0  # g
        self.rest = 0  # everything else in its cost basis
        self.parted = False
        self.parted_out = False  # its disposal was entered; the hulk may be here still
        self.sale = None  # the sale that stands
        self.tax_left = 0  # what allowances left of that sale's tax

    def basis(self):
        return self.carried + self.rest


class Replay:
    """Every event up to the end of the day `until`, in order. What counts in a year is noted as (day, word, amount)."""

    def __init__(self, shop, until="9999-12-31"):
        self.shop = shop
        self.machines = {tag: Machine(tag) for tag in shop.tags}
        self.pieces = []
        self.notes = []
        self.tax = []  # (day, place, amount): sales tax collected less what went back
        # "on the day of its first harvest or its disposal, the earlier"
        self.parting_day = {}
        for row in shop.disposals:
            if row["how"] == "parted out":
                harvests = [line["date"] for line in shop.harvested if line["donor"] == row["machine"]]
                self.parting_day[row["machine"]] = min([row["date"]] + harvests)
        for day in shop.days():
            if day <= until:
                self.one_day(day)

    def note(self, day, word, amount):
        self.notes.append((day, word, amount))

    def one_day(self, day):
        """ "On one day what comes in is first, then materials and outside work, then partings, then parts fitted and
        sold." Machines are sold, and leave, after that; a donor comes back before it is parted, and is parted as soon as
        it is here on that day."""
        self.acquisitions(day)
        self.orders(day)
        for row in of_day(self.shop.materials, day):  # "Materials used on the machine"
            self.note(day, "materials", self.shop.money(row, "cost"))
            self.spend(day, row["machine"], self.shop.money(row, "cost"))
        for row in of_day(self.shop.findings, day):  # "outside work paid for (the `cost` of a finding)"
            self.note(day, "other costs", self.shop.money(row, "cost"))
            self.spend(day, row["machine"], self.shop.money(row, "cost"))
        turns = {tag: self.turns_of(tag, day) for tag in self.shop.tags}
        for tag in self.shop.tags:
            if self.parting_day.get(tag) == day:
                if self.machines[tag].where != "in":
                    self.take_turn(day, tag, turns[tag].pop(0))
                self.part(day, tag)
        # "Uses go by day, fitted before sold, then by line."
        for row in of_day(self.shop.fitted, day):
            self.fit(day, row)
        for row in of_day(self.shop.parts_sold, day):
            self.sell_part(day, row)
        for tag in self.shop.tags:
            for turn in turns[tag]:
                self.take_turn(day, tag, turn)
        for row in of_day(self.shop.allowances, day):
            self.allow(day, row)
        self.hulks(day)

    # --- what comes in ---

    def acquisitions(self, day):
        for row in of_day(self.shop.acquisitions, day):
            name = row["acquisition"]
            # "price and pickup are one sum, split once"; of a gift it is the pickup, "split by itself".
            paid = self.shop.money(row, "price") + self.shop.money(row, "pickup_cost")
            shares = self.shop.over_lot(name, paid)
            # "`giver_basis` is split over its machines like a price. Let g be a machine's share"
            givers = self.shop.over_lot(name, self.shop.money(row, "giver_basis"))
            brought = 0
            for tag in self.shop.machines_of[name]:
                machine = self.machines[tag]
                machine.where = "in"
                machine.rest = shares[tag]
                machine.high = machine.low = givers[tag]
                # "and l the lower of g and its value then (g where no value was given)"
                value = self.shop.machine_row[tag].get("value_then", "")
                if value != "":
                    machine.low = min(machine.high, scaled(value, self.shop.digits))
                machine.carried = machine.low  # "It is carried at l, brought in by the owner, not paid."
                brought += machine.low
            # "The first year opens with the lines marked `opening`, which are no purchases: price and pickup, a gift's l"
            word = "opening" if row.get("opening") == "yes" else "purchases"
            self.note(day, word, paid + brought)

    def orders(self, day):
        """ "An order counts, in purchases and in stock, on the day it arrived" """
        for order in self.shop.orders:
            if order.get("arrived", "") != day:
                continue
            lines = [row for row in self.shop.order_lines if row["order"] == order["order"]]
            prices = [int(row["quantity"]) * self.shop.money(row, "price") for row in lines]
            # "the line's price plus its share of freight and tax (one sum), by line value"
            extra = self.shop.money(order, "freight") + self.shop.money(order, "tax")
            for row, price, share in zip(lines, prices, split(extra, prices)):
                self.receive(row, price + share, day, 0, ("order", order["order"]))
            word = "opening" if order.get("opening") == "yes" else "purchases"  # "an order's landed cost"
            self.note(day, word, sum(prices) + extra)

    def receive(self, row, cost, day, kind, source):
        """ "A line's cost is split equally over its pieces, which are issued in turn." """
        for share in split(cost, [1] * int(row["quantity"])):
            self.pieces.append(Piece(row["part"], share, day, kind, row["line"], source))

    # --- what a machine costs ---

    def spend(self, day, tag, amount):
        """ "What is spent on a machine after it left goes where its basis went, on its own day" """
        machine = self.machines[tag]
        machine.rest += amount
        if machine.where in ("sold", "gone"):
            self.note(day, "spent after", amount)
        elif machine.where == "kept":  # "Withdrawals are at cost, and so is what is spent later on a machine kept."
            self.note(day, "withdrawals", amount)
        else:
            assert machine.where == "in"

    def settle(self, day, machine, amount):
        """ "at the next sale, disposal or parting the difference from that is brought in, or taken back by the owner (a
        negative purchase)" """
        self.note(day, "purchases", amount - machine.carried)
        machine.carried = amount

    def part(self, day, tag):
        """ "its basis is split once over all its harvested lines (the later ones too) and the hulk, which comes last, in
        proportion to the values the owner gives them" """
        machine = self.machines[tag]
        assert machine.where == "in" and not machine.parted
        self.settle(day, machine, machine.low)  # "Anything else that leaves, leaves at l"
        lines = [row for row in self.shop.harvested if row["donor"] == tag]
        disposal = next(row for row in self.shop.disposals if row["machine"] == tag)
        # "(no hulk value: its scrap money; neither: 0)"
        column = "hulk_value" if disposal.get("hulk_value", "") != "" else "proceeds"
        weights = [self.shop.money(row, "value") for row in lines] + [self.shop.money(disposal, column)]
        shares = split(machine.basis(), weights)
        for row, share in zip(lines, shares):
            # "Parts are stock at that cost from then on, and can be fitted from the day of their line."
            self.receive(row, share, row["date"], 1, ("donor", tag))
        # "The hulk's share, with what is spent on it later, is from then on the donor's cost basis". What was given is
        # no longer told apart: the parting was settled at l.
        machine.carried = machine.low = machine.high = 0
        machine.rest = shares[-1]
        machine.parted = True

    # --- parts ---

    def issue(self, day, row):
        """The cost of the pieces that a line takes. "Stock is issued first in, first out (by day received; on one day
        order lines before harvested ones, each by line), or from the receipt that the user points at." """
        source = None
        if row.get("from", ""):  # "an order or else a donor" (exchange)
            is_order = any(order["order"] == row["from"] for order in self.shop.orders)
            source = ("order" if is_order else "donor", row["from"])
        stock = [
            piece
            for piece in self.pieces
            if piece.part == row["part"] and not piece.used and piece.received <= day and source in (None, piece.source)
        ]
        stock.sort(key=lambda piece: (piece.received, piece.kind, piece.line))  # stable: pieces of a line stay in turn
        taken = stock[: int(row["quantity"])]
        assert len(taken) == int(row["quantity"]), ("not in stock", row)
        for piece in taken:
            piece.used = True
        return sum(piece.cost for piece in taken)

    def fit(self, day, row):
        cost = self.issue(day, row)
        if row.get("machine", ""):
            self.spend(day, row["machine"], cost)
        else:  # "A part written off (lost, broken, given away) is cost of goods at its cost on that day"
            self.note(day, "written off", cost)

    def sell_part(self, day, row):
        # "a part sold by itself is a sale, and cost of goods at its cost"
        self.note(day, "parts sold", self.issue(day, row))
        self.note(day, "receipts", self.shop.money(row, "price"))
        self.note(day, "fees", self.shop.money(row, "fee"))
        self.tax.append((day, row.get("place", ""), self.shop.money(row, "sales_tax")))

    # --- machines that go and come ---

    def turns_of(self, tag, day):
        """The machine's sales, returns and disposal of a day, each when it is its turn; two of a kind by line."""
        sales = [("sale", row) for row in of_day(self.shop.sales, day) if row["machine"] == tag]
        returns = [("return", row) for row in of_day(self.shop.returns, day) if row["machine"] == tag]
        disposals = [("disposal", row) for row in of_day(self.shop.disposals, day) if row["machine"] == tag]
        turns = []
        sold = self.machines[tag].where == "sold"
        while sales or returns or disposals:
            if sold:
                turns.append(returns.pop(0))
            else:
                turns.append((sales or disposals).pop(0))
            sold = not sold
        return turns

    def take_turn(self, day, tag, turn):
        machine = self.machines[tag]
        what, row = turn
        if what == "sale":
            self.sell(day, machine, row)
        elif what == "return":
            self.bring_back(day, machine, row)
        else:
            self.dispose(day, machine, row)

    def sell(self, day, machine, row):
        assert machine.where == "in"
        price = self.shop.money(row, "price")
        fee = self.shop.money(row, "fee")
        delivery = self.shop.money(row, "delivery")
        # "When it is sold, with k the rest of its cost basis and N its net proceeds: if N > g + k the basis is g (a
        # gain), if N < l + k it is l (a loss), in between it is N - k"; "Each sale settles it by its own price, fee and
        # delivery and by k as of that day"
        net = price - fee - delivery
        if net > machine.high + machine.rest:
            settled = machine.high
        elif net < machine.low + machine.rest:
            settled = machine.low
        else:
            settled = net - machine.rest
        # "what the basis is above l is brought in by the owner on the day of that sale"
        self.settle(day, machine, settled)
        self.note(day, "left", machine.basis())
        self.note(day, "receipts", price)
        self.note(day, "fees", fee)
        self.note(day, "delivery", delivery)
        self.note(day, "machines sold", 1)
        self.tax.append((day, row.get("place", ""), self.shop.money(row, "sales_tax")))
        machine.where = "sold"
        machine.sale = row
        machine.tax_left = self.shop.money(row, "sales_tax")

    def bring_back(self, day, machine, row):
        """ "the sale is reversed at what was refunded, and the machine comes back at its old basis; what the comeback
        cost is added to it"; what was spent meanwhile "comes back with the basis if the machine does" """
        assert machine.where == "sold"
        refunded = self.shop.money(row, "refunded")
        price = self.shop.money(machine.sale, "price")
        self.note(day, "came back", machine.basis())
        self.note(day, "returns", refunded)
        self.note(day, "machines sold", -1)
        if price != 0:
            # "The sales tax goes back with them (tax x refunded / price, rounded, at most what allowances on that sale
            # left of it; none if the price was 0), out of what that place is owed"
            back = rounded(Fraction(self.shop.money(machine.sale, "sales_tax") * refunded, price))
            back = min(back, max(0, machine.tax_left))
            self.tax.append((day, machine.sale.get("place", ""), -back))
        machine.where = "in"
        machine.sale = None

    def allow(self, day, row):
        """ "An allowance (money given back without a return) counts with the refunds of the year it was paid"; its tax
        goes back "as entered, from the place of the sale before it" """
        machine = self.machines[row["machine"]]
        assert machine.where == "sold"
        self.note(day, "returns", self.shop.money(row, "amount"))
        tax = self.shop.money(row, "sales_tax")
        self.tax.append((day, machine.sale.get("place", ""), -tax))
        machine.tax_left -= tax

    def dispose(self, day, machine, row):
        assert machine.where == "in"
        if row["how"] == "parted out":
            # The parting was entered on its day. "The hulk leaves on `hulk_gone` (the disposal's day if empty); until
            # then it is stock, and its scrap money is yet to come."
            assert machine.parted
            machine.parted_out = True
            return
        self.settle(day, machine, machine.low)  # "Anything else that leaves, leaves at l"
        if row["how"] == "scrapped":
            # "proceeds are income, the remaining basis leaves as cost of goods"
            self.note(day, "left", machine.basis())
            self.note(day, "receipts", self.shop.money(row, "proceeds"))
            machine.where = "gone"
        else:  # "the basis is withdrawn, and is no cost of goods"
            self.note(day, "withdrawals", machine.basis())
            machine.where = "kept"

    def hulks(self, day):
        for row in self.shop.disposals:
            if hulk_left(row) == day:
                machine = self.machines[row["machine"]]
                # "it leaves as cost of goods on the day the hulk does, and the scrap money is income"
                assert machine.parted_out and machine.where == "in"
                self.note(day, "left", machine.basis())
                self.note(day, "receipts", self.shop.money(row, "proceeds"))
                machine.where = "gone"

    # --- what it comes to ---

    def stock(self):
        """What is here at the end, valued piece by piece: machines and hulks, and parts."""
        machines = sum(machine.basis() for machine in self.machines.values() if machine.where == "in")
        return machines + sum(piece.cost for piece in self.pieces if not piece.used)


def hulk_left(disposal):
    """The day on which the hulk left; None for one that is here and for a machine not parted out."""
    if disposal["how"] != "parted out" or disposal.get("hulk_gone", "") == "here":
        return None
    return disposal.get("hulk_gone", "") or disposal["date"]


# --- machines ---------------------------------------------------------------------------------------------------------


def minutes_by_machine(shop, year=None):
    """ "all logged labour on it"; "the minutes of labour, that belong to an acquisition are split over its machines, line
    by line, as its price is". Minutes of the shop in general belong to none."""
    minutes = {tag: 0 for tag in shop.tags}
    for row in shop.labour:
        if year is not None and row["date"][:4] != year:
            continue
        if row.get("machine", ""):
            minutes[row["machine"]] += int(row["minutes"])
        elif row.get("acquisition", ""):
            for tag, share in shop.over_lot(row["acquisition"], int(row["minutes"])).items():
                minutes[tag] += share
    return minutes


def running_costs(shop):
    costs = {tag: 0 for tag in shop.tags}
    overheads = {}  # "Overheads of a year are one sum"
    for row in shop.expenses:
        year = row["date"][:4]
        overheads[year] = overheads.get(year, 0) + shop.money(row, "amount")
    for row in shop.trips:
        cost = shop.trip_cost(row)
        if row.get("machine", ""):
            costs[row["machine"]] += cost
        elif row.get("acquisition", ""):  # "The cost of a trip [...] split over its machines, line by line"
            for tag, share in shop.over_lot(row["acquisition"], cost).items():
                costs[tag] += share
        else:
            year = row["date"][:4]
            overheads[year] = overheads.get(year, 0) + cost
    for year, total in overheads.items():
        # "split to the cent over the machines by their minutes in that year, in order of tag" (exchange)
        minutes = minutes_by_machine(shop, year)
        if sum(minutes.values()) == 0:  # "in a year without minutes on any machine they stay with the shop"
            continue
        for tag, share in zip(shop.tags, split(total, [minutes[tag] for tag in shop.tags])):
            costs[tag] += share
    return costs


def net_proceeds(shop, tag):
    """ "price - selling fees - delivery paid - refunds and allowances, over all its sales and returns, and scrap money" """

    def total(table, column):
        return sum(shop.money(row, column) for row in table if row["machine"] == tag)

    earned = total(shop.sales, "price") - total(shop.sales, "fee") - total(shop.sales, "delivery")
    return earned - total(shop.returns, "refunded") - total(shop.allowances, "amount") + total(shop.disposals, "proceeds")


def stage_here(shop, tag, since):
    """The stage of a machine that is here, since the day it came in or came back last."""
    # "`for sale` if a listing since it came (back) in has not ended and no fault, ended or not, was opened on a later
    # day" (exchange)
    faults = [row["date"] for row in shop.faults if row["machine"] == tag]
    for row in shop.listings:
        if row["machine"] == tag and row["date"] >= since and not row.get("ended", ""):
            if all(opened <= row["date"] for opened in faults):
                return "for sale"
    # "else the one given, if it is `waiting on parts`, `test run` or `on the bench`"
    given = shop.machine_row[tag].get("stage", "")
    if given in ("waiting on parts", "test run", "on the bench"):
        return given
    # "else `on the bench` if there is a finding, part, material or labour (its acquisition's too) other than pickup since
    # then, else `in the yard`"
    work = [row["date"] for row in shop.findings + shop.fitted + shop.materials if row.get("machine") == tag]
    lot = shop.acquisition_of[tag]["acquisition"]
    for row in shop.labour:
        if row["work"] != "pickup" and (row.get("machine") == tag or row.get("acquisition") == lot):
            work.append(row["date"])
    return "on the bench" if any(day >= since for day in work) else "in the yard"


def days_between(first, last):
    return (datetime.date.fromisoformat(last) - datetime.date.fromisoformat(first)).days


def machines(shop):
    """ "an array of objects in order of tag" (exchange)"""
    replay = Replay(shop)
    costs = running_costs(shop)
    minutes = minutes_by_machine(shop)
    answer = []
    for tag in shop.tags:
        machine = replay.machines[tag]
        disposal = next((row for row in shop.disposals if row["machine"] == tag), None)
        acquired = shop.acquisition_of[tag]["date"]
        sold = machine.sale["date"] if machine.where == "sold" else None
        # "Stage: by the last sale or disposal if the machine is gone (a donor's hulk may be here)" (exchange)
        if machine.where == "sold":
            stage = "sold"
        elif disposal:
            stage = disposal["how"]
        else:
            came_back = [row["date"] for row in shop.returns if row["machine"] == tag]
            stage = stage_here(shop, tag, max([acquired] + came_back))
        # "acquired to the last sale or the disposal (a donor's: to the day its hulk left)"; "days_held is null while it is
        # here" (exchange)
        left = sold
        if disposal:
            left = hulk_left(disposal) if disposal["how"] == "parted out" else disposal["date"]
        # "none while the machine, or its hulk, is here, or it is kept"
        earned = machine.where in ("sold", "gone")
        proceeds = net_proceeds(shop, tag)
        gross = proceeds - machine.basis()  # "net proceeds - cost basis"
        profit = gross - costs[tag]  # "gross profit - running costs"
        pay = None
        if earned and minutes[tag]:  # "profit / hours, from the minutes"; "null at 0 hours" (exchange)
            pay = rounded(Fraction(profit * 60, minutes[tag]))
        answer.append(
            {
                "tag": tag,
                "kind": shop.machine_row[tag]["kind"],
                "stage": stage,
                "acquired": acquired,
                "sold": sold,
                "cost_basis": shop.text(machine.basis()),
                "net_proceeds": shop.text(proceeds) if earned else None,
                "gross_profit": shop.text(gross) if earned else None,
                "running_costs": shop.text(costs[tag]),
                "profit": shop.text(profit) if earned else None,
                "hours": hours_text(minutes[tag]),
                "pay_per_hour": None if pay is None else shop.text(pay),
                "days_held": None if left is None else days_between(acquired, left),
            }
        )
    return answer


# --- the year ---------------------------------------------------------------------------------------------------------


def self_employment_tax(shop, year, net_profit):
    """ "net x 92.35 % x 15.3 %, wage base applied", in cents; None where it is not given."""
    # "Outside the US (any currency but USD) the tax page is off"; "not given for a year without a known base"
    if shop.currency != "USD" or year not in WAGE_BASE:
        return None
    net = net_profit * Fraction("0.9235")
    # "nothing if that net is under 400 (tested before rounding)"
    if net < 400_00:
        return 0
    # "12.4 % up to the wage base and 2.9 % on all"; "rounded once, at the end"
    return rounded(min(net, WAGE_BASE[year] * 100) * Fraction("0.124") + net * Fraction("0.029"))


def books(shop, year):
    digits_of_year = f"{year:04d}"
    replay = Replay(shop, f"{year:04d}-12-31")

    def in_year(table):
        return [row for row in table if row["date"][:4] == digits_of_year]

    def noted(*words):
        return sum(amount for day, word, amount in replay.notes if day[:4] == digits_of_year and word in words)

    # Schedule C Part III: "opening inventory + purchases less personal withdrawals + materials + other costs - closing
    # inventory". "stock valued piece by piece at the two year ends"
    opening = Replay(shop, f"{year - 1:04d}-12-31").stock() + noted("opening")
    closing = replay.stock()
    cost_of_goods = (
        opening + noted("purchases") - noted("withdrawals") + noted("materials") + noted("other costs") - closing
    )
    # "cost of goods sold = the bases of what left (sold, scrapped, hulks) less those of what came back + what was spent on
    # such machines afterwards + parts written off or sold"
    moved = noted("left") - noted("came back") + noted("spent after", "written off", "parts sold")
    off = cost_of_goods - moved

    gross_profit = noted("receipts") - noted("returns") - cost_of_goods

    # "Selling fees and delivery are expenses of the categories `commissions and fees` and `delivery` (expenses.csv may add
    # to both)" (exchange)
    expenses = {"commissions and fees": noted("fees"), "delivery": noted("delivery")}
    for row in in_year(shop.expenses):
        expenses[row["category"]] = expenses.get(row["category"], 0) + shop.money(row, "amount")
    # "car and truck by the standard mileage rate in force on each trip's date": of all trips, whoever's they are.
    car = sum(shop.trip_cost(row) for row in in_year(shop.trips))
    net_profit = gross_profit - sum(expenses.values()) - car
    tax = self_employment_tax(shop, year, net_profit)

    # "sales_tax_collected is less what went back"; "sales_tax_owed runs on from year to year" (exchange)
    collected = {}
    owed = {}
    for day, place, amount in replay.tax:
        owed[place] = owed.get(place, 0) + amount
        if day[:4] == digits_of_year:
            collected[place] = collected.get(place, 0) + amount
    for row in shop.tax_paid:  # "Handing sales tax on (tax_paid.csv) lowers what is owed and is no expense."
        if row["date"][:4] <= digits_of_year:
            owed[row.get("place", "")] = owed.get(row.get("place", ""), 0) - shop.money(row, "amount")

    # "Hours of the year are all labour dated in it, the shop in general included; pay per hour is net profit over them."
    minutes = sum(int(row["minutes"]) for row in in_year(shop.labour))
    pay = rounded(Fraction(net_profit * 60, minutes)) if minutes else None

    def by_name(amounts):  # "the objects hold what is not zero" (exchange)
        return {name: shop.text(amounts[name]) for name in sorted(amounts, key=str.encode) if amounts[name] != 0}

    return {
        "year": year,
        "currency": shop.currency,
        "gross_receipts": shop.text(noted("receipts")),
        "returns": shop.text(noted("returns")),
        "opening_inventory": shop.text(opening),
        "purchases": shop.text(noted("purchases")),
        "withdrawals": shop.text(noted("withdrawals")),
        "materials": shop.text(noted("materials")),
        "other_costs": shop.text(noted("other costs")),
        "closing_inventory": shop.text(closing),
        "cost_of_goods_sold": shop.text(cost_of_goods),
        "gross_profit": shop.text(gross_profit),
        "expenses": by_name(expenses),
        "car_and_truck": shop.text(car),
        "net_profit": shop.text(net_profit),
        "self_employment_tax": None if tax is None else shop.text(tax),
        "sales_tax_collected": by_name(collected),
        "sales_tax_owed": by_name(owed),
        "miles": decimal(sum(scaled(row["miles"], 1) for row in in_year(shop.trips)), 1),
        "machines_sold": noted("machines sold"),
        "hours": hours_text(minutes),
        "pay_per_hour": None if pay is None else shop.text(pay),
        "identity": "holds" if off == 0 else f"cost of goods sold is off by {shop.text(off)}",
    }


def main(arguments):
    if arguments[1:] != ["machines"] and not (len(arguments) == 3 and arguments[1] == "books" and arguments[2].isdigit()):
        print(__doc__, file=sys.stderr)
        return 2
    shop = Shop(arguments[0])
    try:
        answer = machines(shop) if arguments[1] == "machines" else books(shop, int(arguments[2]))
    except NoRate as refusal:
        print(refusal, file=sys.stderr)
        return 1
    print(json.dumps(answer, indent=1, ensure_ascii=False))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
