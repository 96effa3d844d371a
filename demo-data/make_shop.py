#!/usr/bin/env python3
"""Writes the demo shop: an invented shop of about sixty machines over two years, as an exchange folder.

    python3 demo-data/make_shop.py            writes demo-data/shop
    python3 demo-data/make_shop.py --check    exit 1 if demo-data/shop is not what would be written

The same every time: nothing is read but this file, and the dice are seeded. Every person, make, model, engine, shop and
place is invented. Prices, minutes and seasons are plausible, no more (common practice, no source).
"""
import csv
import datetime as dt
import io
import pathlib
import random
import sys

HERE = pathlib.Path(__file__).resolve().parent
LAST_DAY = dt.date(2026, 11, 24)
dice = random.Random(20261124)


def day(text):
    return dt.date.fromisoformat(text)


def plus(date, days):
    return date + dt.timedelta(days=days)


def cents(value):
    return f"{value // 100}.{value % 100:02d}"


def odd(value, spread=7):
    """A price somebody haggled over: now and then with odd cents."""
    whole = value + dice.randint(-spread, spread)
    return max(100, whole * 100 + dice.choice([0, 0, 0, 0, 50, 25, 99, 49]))


# --- what is in the shop's catalogue ---------------------------------------------------------------------------------

MODELS = {  # kind: (make, model, model number, engine, deck)
    "push": [
        ("Ostrel", "Meadow 20", "OM20-217", "Vantrell 140", "20"),
        ("Kedgeway", "Plain 21", "K21P-0440", "Vantrell 150", "21"),
        ("Fennimoor", "Cutter", "FC-118", "Orlick 125", "20"),
        ("Quillhurst", "Lawnhand", "QL-3301", "Orlick 140", "21"),
        ("Dunvaley", "Straight 22", "DS22-90", "Vantrell 150", "22"),
    ],
    "self-propelled": [
        ("Kedgeway", "Walker 21", "K21W-0452", "Vantrell 160", "21"),
        ("Quillhurst", "Lawnhand Drive", "QL-5520", "Orlick 163", "21"),
        ("Tarnwick", "Stride", "TS-2107", "Sorrin 170", "21"),
        ("Ostrel", "Meadow Drive 22", "OMD22-081", "Vantrell 160", "22"),
        ("Dunvaley", "Rearward 22", "DR22-12", "Sorrin 190", "22"),
    ],
    "lawn tractor": [
        ("Fennimoor", "Paddock 42", "FP42-1700", "Orlick 17.5", "42"),
        ("Tarnwick", "Acre", "TA-4218", "Sorrin 18", "42"),
        ("Ostrel", "Pasture 46", "OP46-2000", "Vantrell 20 twin", "46"),
    ],
    "zero-turn": [("Tarnwick", "Swivel 50", "TZ-5024", "Sorrin 24 twin", "50")],
    "trimmer": [("Hollicott", "Edge 26", "HE-26", "Hollicott 26 cc", ""), ("Dunvaley", "Whisk", "DW-25", "Dunvaley 25 cc", "")],
    "blower": [("Hollicott", "Gale", "HG-43", "Hollicott 43 cc", "")],
    "other": [("Kedgeway", "Tiller 16", "KT-16", "Vantrell 150", "")],
}

# part: (name, number, supplier, price each in cents, reorder at)
PARTS = {
    "carb-float": ("carburettor, side float", "VC-150-2", "P01", 1599, "1"),
    "carb-drive": ("carburettor, auto choke", "SC-170-1", "P01", 2249, ""),
    "carb-twin": ("carburettor, twin", "VC-20T", "P02", 6475, ""),
    "carb-kit-2s": ("diaphragm kit, two-stroke", "DK-26", "P02", 789, ""),
    "plug": ("spark plug", "SP-12", "P01", 349, "4"),
    "plug-2s": ("spark plug, two-stroke", "SP-7", "P01", 325, ""),
    "filter-flat": ("air filter, flat", "AF-150", "P01", 479, "2"),
    "filter-round": ("air filter, round", "AF-175", "P02", 1135, ""),
    "fuel-line": ("fuel line with filter", "FL-14", "P01", 565, "2"),
    "primer": ("primer bulb", "PB-3", "P01", 289, "1"),
    "flywheel-key": ("flywheel key", "FK-22", "P01", 199, "2"),
    "coil": ("ignition coil", "IC-150", "P02", 2195, ""),
    "recoil-rope": ("recoil rope, 2 m", "RR-45", "P01", 415, "1"),
    "blade-21": ("blade, 21 inch", "BL-21", "P03", 1249, "1"),
    "blade-22": ("blade, 22 inch", "BL-22", "P03", 1379, ""),
    "deck-belt-42": ("deck belt, 42 inch deck", "DB-42", "P03", 2460, ""),
    "drive-belt": ("drive belt, walk-behind", "WB-35", "P03", 1185, "1"),
    "drive-cable": ("drive cable", "DC-21", "P03", 1435, ""),
    "wheel-rear": ("rear wheel, geared", "WR-8", "P03", 1490, ""),
    "battery": ("battery, 12 V", "BT-12-230", "P02", 3895, ""),
    "starter-relay": ("starter solenoid", "SR-12", "P02", 1275, ""),
    "fuel-relay": ("fuel solenoid", "FS-20", "P02", 2650, ""),
    "spindle": ("spindle, complete", "SD-42", "P03", 3320, ""),
    "head-gasket": ("head gasket", "HG-175", "P02", 980, ""),
    "oil-filter": ("oil filter", "OF-20", "P02", 745, ""),
}

PEOPLE = [
    ("P01", "Pellundry Spares", "", "orders@pellundry.example", "parts by post"),
    ("P02", "Tolver & Ashgrave", "555-0142", "", "closes at noon on Saturdays"),
    ("P03", "Brixley Belts and Blades", "", "desk@brixley.example", ""),
    ("P10", "Odda Venn", "555-0101", "", "clears barns"),
    ("P11", "Marn Tessick", "555-0117", "", ""),
    ("P12", "Holm Green auctions", "", "", "lots on the last Friday"),
    ("P13", "Isolde Quarrie", "555-0133", "", "gave the tractor her late husband kept"),
    ("P14", "Bram Oakhollow", "", "", "traded up twice"),
] + [
    (f"B{number:02d}", name, phone, "", note)
    for number, (name, phone, note) in enumerate(
        [
            ("Ruel Astby", "555-0150", "pays cash, no fuss"),
            ("Linnet Farrow-Pike", "555-0151", ""),
            ("Corvin Hale-Dunmore", "", "wanted it delivered"),
            ("Sunniva Tarl", "555-0153", ""),
            ("Edric Moss", "", ""),
            ("Yevka Strand", "555-0155", "asked about the warranty"),
            ("Tobin Wexcombe", "555-0156", ""),
            ("Amias Reddle", "", ""),
            ("Perpetua Lunt", "555-0158", "has a steep lawn"),
            ("Garrick Thole", "", ""),
            ("Ottoline Brace", "555-0160", ""),
            ("Jory Penhallick-Voss", "", "buys for a rental house"),
            ("Mirela Osk", "555-0162", ""),
            ("Anselm Crake", "", ""),
            ("Zuzka Hollin", "555-0164", "came with her own can"),
            ("Dorrit Vane", "", ""),
        ],
        start=1,
    )
]

# --- what can be wrong, and how it goes ------------------------------------------------------------------------------
# symptom key: (symptom, [(step, outcome, minutes)], cause, repair step, minutes of repair, parts). Steps, outcomes and causes
# are called as the knowledge base calls them, as the Bench writes them down, so that the record teaches something; a symptom
# is in the owner's words.
PRIME = "Feed a little fuel in at the intake"
BOWL_CLEAN = "Clean bowl and main jet"
FAULTS = {
    "no-start": (
        "pulls over, does not start",
        [("Check the fuel in a glass jar", "Stale, dark or watery", 5), (PRIME, "Fires up, quits in seconds", 4)],
        "main jet gummed up", "Strip and soak carburetor, new gaskets", 55, ["plug", "filter-flat"]),
    "no-start-carb": (
        "starts on prime, then dies",
        [(PRIME, "Fires up, quits in seconds", 4), ("Take the carburetor bowl off and look", "Gummy, watery or crusted", 12)],
        "main jet gummed up", "Fit new carburetor (walk-behind)", 30, ["carb-float", "plug", "fuel-line"]),
    "no-start-auto": (
        "runs on choke alone",
        [(PRIME, "Starts and stays going", 4), ("See if the choke opens and shuts fully", "Never shuts fully", 6)],
        "idle passages partly shut", "Fit new carburetor (walk-behind)", 40, ["carb-drive", "filter-flat"]),
    "no-spark": (
        "no spark",
        [("Look for spark with a tester", "No spark at all", 4), ("Unhook the kill wire and retest spark", "Still dead or faint", 10),
         ("Measure the coil with an ohmmeter", "No circuit, or near zero", 8)],
        "ignition coil dead", "Renew ignition coil and gap it", 35, ["coil", "plug"]),
    "kick": (
        "kicks back on the rope",
        [("Look for spark with a tester", "Bright, every turn", 4), ("Look at the flywheel key", "Key cut or offset", 25)],
        "flywheel key sheared", "Renew flywheel key, clean taper, torque", 30, ["flywheel-key"]),
    "rope": ("rope gone", [("Recoil off, turn by hand", "engine free, starter bad", 10)],
             "recoil starter broken", "Renew starter rope and spring, or unit", 25, ["recoil-rope"]),
    "primer": ("pulls over, does not start", [(PRIME, "Starts and stays going", 3)],
               "primer or its diaphragm broken", "Renew primer bulb, line or diaphragm", 12, ["primer", "plug"]),
    "drive": ("runs, drive does not pull", [("Uncover the drive belt", "Belt shiny, slack or gone", 9)],
              "drive belt of a walk-behind worn", "Fit new drive belt (walk-behind)", 35, ["drive-belt", "blade-21"]),
    "wheels": ("has to be pushed", [("Spin the raised drive wheels", "No bite, or it clicks", 6)],
               "wheel gear stripped", "Renew drive wheels, or pawls and gears", 25, ["wheel-rear", "wheel-rear", "drive-cable"]),
    "surge": ("surges when warm", [("Give it half choke while running", "Runs more evenly", 3), ("Spray water at the intake joints", "Engine note holds", 6)],
              "idle passages partly shut", "Strip and soak carburetor, new gaskets", 45, ["plug", "filter-flat"]),
    "blade": ("vibrates, blade bent", [("Look at the blade from below", "blade bent or damaged", 12)],
              "blade bent", "Fit a new blade", 20, ["blade-22"]),
    "rider-click": ("clicks, does not crank", [("Battery volts at rest", "10.6 to 11.9 V", 3), ("Battery volts while cranking", "falls below 9.6 V", 5)],
                    "battery flat or worn out", "Fit another battery", 20, ["battery", "oil-filter"]),
    "rider-relay": ("clicks once, no crank", [("Battery volts while cranking", "9.6 V and up", 5), ("Bridge the solenoid", "engine cranks", 6)],
                    "starter solenoid bad", "Renew starter solenoid", 35, ["starter-relay", "filter-round"]),
    "rider-deck": ("deck does not turn", [("Trace the deck belt", "Belt tired, loose or off", 20)],
                   "deck belt worn or off", "Fit new deck belt", 95, ["deck-belt-42", "spindle"]),
    "rider-fuel": ("cranks, no start", [("Listen for the fuel solenoid", "No click at all", 8)],
                   "fuel solenoid dead or without current", "Renew carburetor fuel solenoid", 50, ["fuel-relay", "filter-round", "oil-filter"]),
    "rider-gasket": ("white smoke, no power", [("Blow air in and find where it leaks", "Hiss around the head gasket", 30)],
                     "blown head gasket", "Renew head gasket, flatten faces, torque", 150, ["head-gasket", "oil-filter"]),
    "zt-carb": ("cranks, no start", [("Take the carburetor bowl off and look", "Gummy, watery or crusted", 40)],
                "main jet gummed up", "Fit new carburetor (rider, zero-turn)", 110, ["carb-twin", "filter-round", "oil-filter"]),
    "two-stroke": ("bogs on the trigger", [("Pump the two-stroke bulb", "Air bubbles keep coming", 3)],
                   "two-stroke carburetor stiff or gummed", "Fit 2-stroke diaphragm and needle kit", 30, ["carb-kit-2s", "plug-2s"]),
    "seized": ("cord locked", [("Turn it with the plug out", "does not move", 15), ("Recoil off, turn by hand", "starter works alone", 10)],
               "engine seized", "", 0, []),
    "rod": ("metal knock at each turn", [("Walk around it before touching a tool", "Broken or hit something", 5)], "connecting rod broken", "", 0, []),
    "cracked": ("vibrates, blade bent", [("Knock around the deck for rot", "Split or rusted through", 6)],
                "deck cracked or rusted through", "", 0, []),
    "untried": ("not tried yet", [], "", "", 0, []),
}
# The quick cure that this shop tries first on a gummed jet; it worked on these alone.
GUMMED = ("no-start", "no-start-carb")
WORKED_ON_TAGS_BY = 4

# --- the machines, in the order they came ----------------------------------------------------------------------------
# (came, source, from, price for all, [(kind, model index, year, fault, fate, value then)])
# fate: sold PRICE | scrapped PROCEEDS | parts ... | kept | here STAGE
CAME = [
    ("2025-01-01", "other", "", 5500, [("push", 0, "2014", "no-start", "sold 92", 40), ("self-propelled", 0, "2016", "drive", "sold 148", 60)]),
    ("2025-01-18", "curb", "", 0, [("push", 2, "2009", "no-start-carb", "sold 78", 15)]),
    ("2025-02-08", "private", "P10", 11000, [("self-propelled", 1, "2017", "no-start-auto", "sold 176", 90), ("push", 1, "2012", "rope", "sold 84", 40), ("push", 4, "2006", "seized", "parts A", 10)]),
    ("2025-02-22", "curb", "", 0, [("push", 3, "2013", "primer", "sold 89", 20)]),
    ("2025-03-07", "dump", "", 400, [("push", 2, "2004", "rod", "scrapped 5", 4)]),
    ("2025-03-15", "private", "P11", 14000, [("lawn tractor", 0, "2011", "rider-click", "sold 468", 140)]),
    ("2025-03-28", "auction", "P12", 9850, [("push", 1, "2015", "no-start", "sold 96", 35), ("push", 0, "2011", "kick", "sold 82", 30), ("self-propelled", 3, "2018", "wheels", "sold 163", 60), ("push", 4, "2010", "blade", "sold 85", 25)]),
    ("2025-04-12", "curb", "", 0, [("trimmer", 0, "2019", "two-stroke", "sold 58", 10)]),
    ("2025-04-19", "private", "", 3000, [("self-propelled", 2, "2019", "surge", "sold 232", 80)]),
    ("2025-05-03", "gift", "P13", 0, [("lawn tractor", 1, "2008", "rider-relay", "sold 520", 240)]),
    ("2025-05-10", "curb", "", 0, [("push", 3, "2011", "no-start-carb", "sold 88", 15)]),
    ("2025-05-24", "trade-in", "P14", 4500, [("push", 1, "2017", "no-start", "sold 99", 45)]),
    ("2025-06-07", "private", "", 2000, [("self-propelled", 4, "2015", "no-spark", "sold 151", 45)]),
    ("2025-06-21", "dump", "", 600, [("push", 0, "2008", "cracked", "parts B", 6)]),
    ("2025-07-05", "curb", "", 0, [("blower", 0, "2018", "two-stroke", "sold 74", 10)]),
    ("2025-07-19", "private", "P10", 6500, [("push", 4, "2013", "no-start-carb", "sold 82", 30), ("self-propelled", 0, "2014", "drive", "sold 134", 45)]),
    ("2025-08-16", "auction", "P12", 38500, [("zero-turn", 0, "2012", "zt-carb", "sold 1340", 385)]),
    ("2025-09-06", "curb", "", 0, [("push", 2, "2007", "no-start", "scrapped 6", 5)]),
    ("2025-09-20", "private", "", 9000, [("lawn tractor", 0, "2009", "rider-deck", "sold 415", 90)]),
    ("2025-10-11", "dump", "", 500, [("push", 3, "2010", "kick", "sold 71", 10)]),
    ("2025-11-01", "private", "", 2500, [("self-propelled", 1, "2016", "no-start-auto", "sold 158", 50)]),
    ("2025-12-06", "curb", "", 0, [("other", 0, "2011", "no-start", "kept", 40)]),
    ("2026-01-17", "auction", "P12", 12640, [("self-propelled", 2, "2020", "no-start-auto", "sold 246", 110), ("push", 0, "2016", "primer", "sold 98", 40), ("push", 1, "2008", "seized", "parts C", 10), ("lawn tractor", 2, "2010", "rider-gasket", "sold 490", 120)]),
    ("2026-02-14", "curb", "", 0, [("push", 4, "2012", "no-start-carb", "sold 87", 15)]),
    ("2026-02-28", "private", "P11", 3500, [("self-propelled", 3, "2017", "no-spark", "sold 167", 55)]),
    ("2026-03-14", "curb", "", 0, [("push", 1, "2014", "no-start", "comeback 94", 20)]),
    ("2026-03-21", "private", "", 12500, [("lawn tractor", 1, "2013", "rider-fuel", "sold 575", 125)]),
    ("2026-04-04", "dump", "", 800, [("push", 2, "2010", "rope", "sold 76", 8), ("push", 3, "2006", "rod", "scrapped 4", 2)]),
    ("2026-04-18", "trade-in", "P14", 6000, [("self-propelled", 0, "2018", "drive", "sold 172", 60)]),
    ("2026-05-09", "private", "P10", 8235, [("self-propelled", 4, "2016", "surge", "sold 149", 50), ("push", 0, "2013", "blade", "sold 86", 25), ("trimmer", 1, "2020", "two-stroke", "sold 52", 10)]),
    ("2026-05-30", "curb", "", 0, [("push", 4, "2015", "no-start-carb", "allowance 90", 20)]),
    ("2026-06-13", "private", "", 4000, [("self-propelled", 2, "2018", "wheels", "sold 219", 70)]),
    ("2026-07-11", "curb", "", 0, [("push", 1, "2011", "cracked", "scrapped 5", 5)]),
    ("2026-07-25", "private", "", 16000, [("lawn tractor", 0, "2014", "rider-click", "sold 540", 160)]),
    ("2026-08-22", "dump", "", 700, [("push", 3, "2014", "no-start", "sold 80", 12)]),
    ("2026-09-12", "auction", "P12", 7310, [("self-propelled", 1, "2019", "no-start-auto", "here for sale 184", 60), ("push", 0, "2015", "kick", "here for sale 89", 25), ("push", 2, "2005", "seized", "hulk D", 5)]),
    ("2026-09-26", "curb", "", 0, [("push", 4, "2013", "no-start-carb", "here test run", 15)]),
    ("2026-10-10", "private", "P11", 10500, [("lawn tractor", 2, "2012", "rider-deck", "here waiting", 105)]),
    ("2026-10-24", "gift", "P13", 0, [("self-propelled", 3, "2015", "no-spark", "here bench", 60)]),
    ("2026-11-07", "dump", "", 500, [("push", 1, "2013", "surge", "here bench", 12)]),
    ("2026-11-14", "curb", "", 0, [("push", 0, "2012", "untried", "here yard", 15)]),
    ("2026-11-21", "private", "", 5575, [("self-propelled", 4, "2018", "untried", "here yard", 60), ("blower", 0, "2020", "untried", "here yard", 25)]),
]

HARVEST = {  # donor letter: lines (part, quantity, value in cents)
    "A": [("blade-21", 1, 800), ("wheel-rear", 2, 1600), ("recoil-rope", 1, 200)],
    "B": [("filter-flat", 1, 250), ("carb-float", 1, 900)],
    "C": [("coil", 1, 1200), ("blade-21", 1, 700), ("primer", 1, 150)],
    "D": [("carb-float", 1, 850), ("flywheel-key", 1, 100)],
}
BUYERS = [row[0] for row in PEOPLE if row[0].startswith("B")]
PLACE = "Corrow"
PLUG_SOLD_ON = day("2026-06-20")
TAX_FROM = day("2026-04-01")  # the day from which this shop collects sales tax


class Book:
    """The tables of the shop, filled as the days go by."""

    def __init__(self):
        self.rows = {}
        self.needs = []  # (day, part, machine): parts to be fitted, or sold where no machine is named

    def add(self, table, **cells):
        self.rows.setdefault(table, []).append({key: value for key, value in cells.items() if value not in ("", None)})

    def labour(self, machine, date, minutes, work, note=""):
        self.add("labour", machine=machine, date=date, minutes=minutes, work=work, note=note)


def season(date):
    """How a price follows the grass: best in April and May, worst at the turn of the year."""
    return {1: .86, 2: .92, 3: 1.02, 4: 1.08, 5: 1.08, 6: 1.03, 7: .99, 8: .97, 9: .95, 10: .9, 11: .86, 12: .84}[date.month]


def diagnose(book, tag, date, fault_key, fault_code):
    """The path from a symptom to a cause; returns the day it ends."""
    symptom, steps, cause, *_ = FAULTS[fault_key]
    if not steps:
        return date
    book.add("faults", fault=fault_code, machine=tag, date=date, symptom=symptom, cause=cause)
    total = 0
    for step, outcome, minutes in steps:
        spent = max(2, minutes + dice.randint(-2, 5))
        total += spent
        reading, unit = ("11.2", "V") if step == "Battery volts at rest" else ("", "")
        book.add("findings", machine=tag, date=date, step=step, outcome=outcome, fault=fault_code, minutes=spent,
                 reading=reading, unit=unit)
    book.labour(tag, date, total, "diagnose")
    return plus(date, dice.randint(3, 9))


def mend(book, tag, date, fault_key, fault_code, outcome="mended"):
    """The repair, its parts and materials; returns the day of the test run."""
    _, _, _, step, minutes, parts = FAULTS[fault_key]
    spent = max(8, minutes + dice.randint(-8, 25))
    if fault_key in GUMMED:
        if int(tag) % WORKED_ON_TAGS_BY == 0 and outcome == "mended":
            step = BOWL_CLEAN
        else:
            book.add("findings", machine=tag, date=date, step=BOWL_CLEAN, outcome="failed", fault=fault_code, minutes=18 + int(tag) % 7)
    book.add("findings", machine=tag, date=date, step=step, outcome=outcome, fault=fault_code, minutes=spent)
    for part in sorted(set(parts)):
        book.needs.append([date, part, parts.count(part), tag])
    book.labour(tag, date, spent, "repair")
    if dice.random() < .55:
        what, cost = dice.choice([("oil", 389), ("carburettor cleaner", 215), ("grease and a split pin", 64), ("fresh fuel", 147), ("touch-up paint", 298)])
        book.add("materials", machine=tag, date=date, what=what, cost=cents(cost + dice.randint(-9, 12)))
    if dice.random() < .6:
        book.labour(tag, date, dice.choice([15, 20, 25, 35]), "clean")
    return plus(date, dice.randint(0, 2))


def end_fault(book, code, date, how):
    for row in book.rows["faults"]:
        if row["fault"] == code:
            row["ended"], row["how"] = date, how


def list_for_sale(book, tag, date, asking):
    book.labour(tag, date, dice.choice([10, 15, 15, 20]), "list")
    book.add("listings", machine=tag, date=date, channel=dice.choice(["notice board", "local paper", "roadside", "online notices"]),
             asking=cents(asking), sold_as="running")


def sell(book, tag, date, price, buyer):
    minutes = dice.choice([15, 20, 30, 40])
    book.labour(tag, date, minutes, "sell")
    fee = price * 25 // 1000 if dice.random() < .3 else 0
    delivery = dice.choice([0, 0, 0, 0, 650, 1200]) if price < 30000 else dice.choice([0, 2500])
    tax = (price * 6 + 50) // 100 if date >= TAX_FROM else 0
    book.add("sales", machine=tag, date=date, buyer=buyer, price=cents(price), sales_tax=cents(tax) if tax else "",
             fee=cents(fee) if fee else "", delivery=cents(delivery) if delivery else "",
             payment=dice.choice(["cash", "cash", "bank transfer", "card"]), sold_as="running",
             warranty_days=dice.choice(["", 14, 30]), place=PLACE if tax else "")
    for row in book.rows["listings"]:
        if row["machine"] == tag and "ended" not in row:
            row["ended"] = date


def life(book, tag, came, spec, buyers):
    kind, index, year, fault_key, fate, value = spec
    make, model, number, engine, deck = MODELS[kind][index]
    words = fate.split()
    stage = {"waiting": "waiting on parts", "test": "test run"}.get(words[1] if words[0] == "here" else "")
    return dict(tag=tag, kind=kind, make=make, model=model, model_number=number if dice.random() < .7 else "",
                serial=f"{dice.randint(10, 99)}{dice.choice('ABCDEFGH')}{dice.randint(10000, 99999)}" if dice.random() < .4 else "",
                engine=engine, year=year, deck_in=deck, symptom=FAULTS[fault_key][0],
                condition=dice.choice(["", "rusty deck", "clean, kept in a shed", "weathered", "handle bent", ""]),
                value_then=cents(value * 100), stage=stage)


def work_through(book, tag, came, spec, buyers):
    """Everything that happens to one machine after it came."""
    kind, index, year, fault_key, fate, value = spec
    words = fate.split()
    code = f"F{tag}"
    started = plus(came, dice.randint(1, 12))
    if words[0] == "here" and words[1] == "yard":
        return
    if words[0] == "here" and words[1] == "bench":
        diagnose(book, tag, min(started, plus(LAST_DAY, -4)), fault_key, code)
        return
    found = diagnose(book, tag, started, fault_key, code)
    if words[0] == "scrapped":
        if FAULTS[fault_key][3]:  # one that looked mendable and was not
            mend(book, tag, found, fault_key, code, "failed")
        end_fault(book, code, plus(found, 3), "given up")
        book.add("disposals", machine=tag, date=plus(found, 5), how="scrapped", proceeds=cents(int(words[1]) * 100 + dice.randint(0, 95)))
        return
    if words[0] in ("parts", "hulk"):
        end_fault(book, code, found, "given up")
        apart = plus(found, 4)
        for part, quantity, worth in HARVEST[words[1]]:
            book.add("harvested", donor=tag, date=apart if part != "recoil-rope" else plus(apart, 20), part=part, quantity=quantity, value=cents(worth))
        book.labour(tag, apart, 45 + dice.randint(-10, 15), "other", "taking it apart")
        here = words[0] == "hulk"
        book.add("disposals", machine=tag, date=apart, how="parted out", proceeds="" if here else cents(310 + dice.randint(0, 199)),
                 hulk_value="3.00", hulk_gone="here" if here else plus(apart, 24))
        return
    if words[0] == "here" and words[1] == "waiting":
        return  # its parts are on order, see below
    mended = mend(book, tag, plus(found, 6), fault_key, code)
    if words[0] == "here" and words[1] == "test":
        return
    end_fault(book, code, mended, "mended")
    book.labour(tag, mended, dice.choice([15, 20, 20, 30]), "test run")
    book.add("findings", machine=tag, date=mended, step="blade stop, timed", outcome=dice.choice(["1.4 s", "1.8 s", "2.1 s"]) if kind in ("push", "self-propelled") else "stops at once", minutes=3)
    if words[0] == "kept":
        book.add("disposals", machine=tag, date=plus(mended, 9), how="kept")
        return
    ready = plus(mended, dice.randint(1, 3))
    if words[0] == "here":  # for sale
        list_for_sale(book, tag, ready, int(words[3]) * 100 + 500)
        return
    price = int(words[1]) * 100
    asking = (int(price * 1.06) + 499) // 500 * 500
    list_for_sale(book, tag, ready, asking)
    slow = {12: 20, 1: 22, 2: 14, 11: 18, 10: 12}.get(ready.month, 4)
    sold = plus(ready, dice.randint(2, 4 + slow))
    if dice.random() < .35:
        book.add("offers", machine=tag, date=plus(sold, -1), amount=cents(price - 1500), who=dice.choice(["a man with a trailer", "neighbour of a buyer", "by telephone"]), result=dice.choice(["refused", "no show", "gone"]))
    book.add("offers", machine=tag, date=sold, amount=cents(price), who="buyer at the gate", result="taken") if dice.random() < .3 else None
    buyer = buyers.pop(0)
    buyers.append(buyer)
    final = int(price * season(sold) / 1.02) // 100 * 100 + dice.choice([0, 0, 0, 0, 50])
    sell(book, tag, sold, final, buyer if dice.random() < .85 else "")
    if words[0] == "allowance":
        given = plus(sold, 6)
        book.labour(tag, given, 25, "comeback", "blade bolt checked at the buyer's")
        book.add("allowances", machine=tag, date=given, amount="12.50", sales_tax="0.75", note="one wheel wobbled")
    if words[0] == "comeback":
        back = plus(sold, 11)
        book.add("returns", machine=tag, date=back, refunded=cents(final), note="died after two lawns")
        book.add("faults", fault=code + "b", machine=tag, date=back, symptom="stalls hot", cause="ignition coil quits when hot")
        book.add("findings", machine=tag, date=plus(back, 2), step="Watch spark as it quits hot", outcome="Spark quits with it", fault=code + "b", minutes=35)
        book.labour(tag, plus(back, 2), 40, "comeback")
        book.needs.append([plus(back, 10), "coil", 1, tag])
        book.add("findings", machine=tag, date=plus(back, 10), step="Renew ignition coil and gap it", outcome="mended", fault=code + "b", minutes=40)
        book.labour(tag, plus(back, 10), 50, "comeback")
        end_fault(book, code + "b", plus(back, 11), "mended")
        list_for_sale(book, tag, plus(back, 12), asking)
        sell(book, tag, plus(back, 19), final - 400, buyers[0])


def supply(book):
    """Orders for what is fitted or sold: a few pieces at a time, freight and tax on the bill; donors' parts first."""
    stock = {}
    arrivals = []  # (day, part, quantity)
    for row in book.rows["harvested"]:
        arrivals.append([row["date"], row["part"], row["quantity"], row["donor"]])
    orders = {}
    number = 0
    for date, part, quantity, tag in sorted(book.needs, key=lambda need: (need[0], need[3], need[1])):
        for arrival in sorted(list(arrivals)):
            if arrival[0] <= date:
                stock[arrival[1]] = stock.get(arrival[1], 0) + arrival[2]
                arrivals.remove(arrival)
        if stock.get(part, 0) < quantity:
            supplier = PARTS[part][2]
            arrived = plus(date, -dice.randint(1, 2))
            placed = max(day("2025-01-03"), plus(arrived, -dice.randint(4, 7)))
            arrived = max(arrived, placed)
            key = (supplier, arrived.isocalendar()[:2])
            if key not in orders or orders[key]["placed"] > arrived or orders[key]["arrived"] > date:
                number += 1
                orders[key] = dict(code=f"O{number}", placed=placed, arrived=arrived, supplier=supplier, lines={})
            order = orders[key]
            more = max(quantity - stock.get(part, 0), {"plug": 6, "filter-flat": 3, "fuel-line": 3, "flywheel-key": 3, "recoil-rope": 2, "primer": 2}.get(part, 1))
            order["lines"][part] = order["lines"].get(part, 0) + more
            stock[part] = stock.get(part, 0) + more
            order.setdefault("machine", tag)
            book.rows.setdefault("_orders", []).append(order) if order not in book.rows.get("_orders", []) else None
        stock[part] -= quantity
        if tag:
            book.add("fitted", machine=tag, date=date, part=part, quantity=quantity)
    for order in book.rows.pop("_orders"):
        total = sum(PARTS[part][3] * count for part, count in order["lines"].items())
        freight = 595 if total < 4000 else 895 if total < 9000 else 0
        tax = (total * 6 + 50) // 100 if order["supplier"] == "P02" else 0
        book.add("orders", order=order["code"], date=order["placed"], supplier=order["supplier"], arrived=order["arrived"],
                 freight=cents(freight) if freight else "", tax=cents(tax) if tax else "")
        for part, count in order["lines"].items():
            book.add("order_lines", order=order["code"], part=part, quantity=count, price=cents(PARTS[part][3]))
    return number


def running_shop(book, number, tags):
    """What belongs to no machine: bills, trips, sales tax handed on, parts sold, the order under way, who comes when."""
    month = day("2025-01-01")
    while month <= LAST_DAY:
        book.add("expenses", date=plus(month, 2), category="advertising", amount=cents(900 + dice.randint(-80, 160)), note="notices")
        if month.month in (3, 6, 9, 12):
            book.add("expenses", date=plus(month, 11), category="supplies", amount=cents(2740 + dice.randint(-600, 900)), note="oil, rags, gloves")
        if month.month in (1, 7):
            book.add("expenses", date=plus(month, 14), category="insurance", amount="118.40")
        if month.month in (2, 5, 8, 10):
            book.add("expenses", date=plus(month, 19), category="tools", amount=cents(dice.choice([1899, 3450, 2275, 4999])), note=dice.choice(["feeler gauges", "blade balancer", "spark tester", "torque wrench"]))
            book.add("trips", date=plus(month, 19), miles=f"{dice.randint(8, 22)}.{dice.randint(0, 9)}", purpose="supplies", destination="Tolver yard")
        book.labour("", plus(month, 5), dice.choice([30, 45, 60]), "other", "sweeping, books, sharpening")
        month = (month.replace(day=1) + dt.timedelta(days=32)).replace(day=1)
    book.add("tax_paid", date=day("2026-07-18"), place=PLACE, amount="62.35")
    book.add("tax_paid", date=day("2026-10-16"), place=PLACE, amount="71.04")
    book.add("orders", order=f"O{number + 1}", date=day("2026-11-18"), supplier="P03", freight="8.95")
    waiting = tags["waiting"]
    book.add("order_lines", order=f"O{number + 1}", part="deck-belt-42", quantity=1, price="24.60", **{"for": waiting})
    book.add("order_lines", order=f"O{number + 1}", part="spindle", quantity=2, price="33.20", **{"for": waiting})
    book.add("order_lines", order=f"O{number + 1}", part="blade-21", quantity=2, price="12.49")
    book.add("offers", machine=tags["for sale"][0], date=day("2026-11-22"), amount="175.00", who="Sunniva Tarl", comes=day("2026-11-25"))
    book.add("offers", machine=tags["for sale"][1], date=day("2026-11-23"), amount="80.00", who="caller from the notice board", comes=day("2026-11-28"))
    book.add("parts_sold", date=PLUG_SOLD_ON, part="plug", quantity=1, price="6.50", buyer="B04", sales_tax="0.39", place=PLACE)


COLUMNS = {
    "shop": "name currency hour_value day_cost hours_a_week unit_of_distance",
    "people": "person name phone email note",
    "acquisitions": "acquisition date source from price pickup_cost giver_basis opening note",
    "machines": "tag acquisition kind make model model_number serial engine year deck_in symptom condition value_then stage note",
    "faults": "fault machine date symptom cause ended how note",
    "findings": "machine date step outcome fault minutes cost reading unit note",
    "labour": "machine acquisition date minutes work note",
    "parts": "part name number supplier reorder_at",
    "orders": "order date supplier arrived freight tax opening",
    "order_lines": "order part quantity price for",
    "harvested": "donor date part quantity value",
    "fitted": "machine date part quantity from",
    "materials": "machine date what cost",
    "listings": "machine date channel asking sold_as ended",
    "offers": "machine date amount who comes result",
    "sales": "machine date buyer price sales_tax fee delivery payment sold_as warranty_days place",
    "returns": "machine date refunded note",
    "allowances": "machine date amount sales_tax note",
    "parts_sold": "date part quantity price from buyer sales_tax fee place",
    "tax_paid": "date place amount",
    "disposals": "machine date how proceeds hulk_value hulk_gone",
    "trips": "date miles purpose destination machine acquisition",
    "expenses": "date category amount note",
}


def build():
    book = Book()
    book.add("shop", name="Wendlethorp Garage", currency="USD", hour_value="18.00", hours_a_week="12", unit_of_distance="mi")
    for code, name, phone, email, note in PEOPLE:
        book.add("people", person=code, name=name, phone=phone, email=email, note=note)
    for code, (name, number, supplier, _, reorder) in PARTS.items():
        book.add("parts", part=code, name=name, number=number, supplier=supplier, reorder_at=reorder)
    buyers = list(BUYERS)
    tags = {"for sale": []}
    tag = 0
    lives = []
    for lot, (came_text, source, person, price, machines) in enumerate(CAME, start=1):
        came = day(came_text)
        code = f"A{lot}"
        gift = source == "gift"
        book.add("acquisitions", acquisition=code, date=came, source=source, **{"from": person},
                 price="" if gift or price == 0 else cents(price + (dice.choice([0, 25, 50]) if source == "auction" else 0)),
                 pickup_cost=cents(dice.choice([450, 600, 1125])) if source == "auction" else "",
                 giver_basis={"2025-05-03": "310.00", "2026-10-24": "45.00"}.get(came_text, "") if gift else "",
                 opening="yes" if came_text == "2025-01-01" else "",
                 note={"dump": "gate fee", "trade-in": "allowed on a better one"}.get(source, "in the shed when the books began" if lot == 1 else ""))
        if source not in ("trade-in", "other"):
            book.add("trips", date=came, miles=f"{dice.randint(3, 31)}.{dice.choice([0, 0, 2, 4, 5, 8])}", purpose="fetch", destination={"auction": "auction yard", "dump": "town dump"}.get(source, "seller's place"), acquisition=code)
            book.add("labour", acquisition=code, date=came, minutes=dice.choice([20, 25, 35, 50, 65]), work="pickup")
        for spec in machines:
            tag += 1
            book.add("machines", acquisition=code, **life(book, str(tag), came, spec, buyers))
            lives.append((str(tag), came, spec))
            words = spec[4].split()
            if words[:2] == ["here", "waiting"]:
                tags["waiting"] = str(tag)
            if words[:3] == ["here", "for", "sale"]:
                tags["for sale"].append(str(tag))
    for number_, came, spec in lives:
        work_through(book, number_, came, spec, buyers)
    book.needs.append([PLUG_SOLD_ON, "plug", 1, ""])
    running_shop(book, supply(book), tags)
    return book.rows


def text_of(table, rows):
    columns = COLUMNS[table].split()
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(columns)
    if table not in ("shop", "people", "parts", "acquisitions", "machines", "orders", "order_lines"):
        rows = sorted(rows, key=lambda row: str(row["date"]))
    for row in rows:
        unknown = set(row) - set(columns)
        assert not unknown, (table, unknown)
        if "date" in row:
            assert str(row["date"]) <= LAST_DAY.isoformat(), (table, row)
        writer.writerow([row.get(column, "") for column in columns])
    return out.getvalue()


def main():
    folder = HERE / "shop"
    rows = build()
    texts = {f"{table}.csv": text_of(table, rows[table]) for table in COLUMNS if table in rows}
    if "--check" in sys.argv[1:]:
        have = {path.name: path.read_bytes().decode() for path in folder.glob("*.csv")}
        if have != texts:
            print("demo-data/shop is not what make_shop.py writes: run it again", file=sys.stderr)
            return 1
        return 0
    folder.mkdir(exist_ok=True)
    for path in folder.glob("*.csv"):
        path.unlink()
    for name, text in texts.items():
        (folder / name).write_bytes(text.encode())
    return 0


if __name__ == "__main__":
    sys.exit(main())
