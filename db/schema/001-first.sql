-- The shop file, version 1. Once released this file is never edited; what comes later is 002-....sql.
--
-- Recorded tables (each one kind of record) change only within an action, whose changeset makes undo possible. They
-- therefore have a key that never changes and no AUTOINCREMENT, trigger, generated column, cascade or UNIQUE: each of
-- these would make the inverse of a changeset conflict. Rules that need more than one row live in core.
--
-- Amounts are whole minor units of the shop's currency, days are ISO text, instants are milliseconds of UTC since 1970,
-- measures with one decimal are whole tenths. An absent text is empty, any other absent value is NULL. In a day's CHECK
-- the "+0 days" counts: without it 30 February passes.

CREATE TABLE people (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  code TEXT NOT NULL,
  name TEXT NOT NULL,
  phone TEXT NOT NULL,
  email TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;

CREATE TABLE acquisitions (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  code TEXT NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  source TEXT NOT NULL CHECK (source IN ('curb', 'dump', 'gift', 'private', 'auction', 'trade-in', 'other')),
  from_person_id INTEGER REFERENCES people (id),
  price INTEGER NOT NULL CHECK (price >= 0),
  pickup_cost INTEGER NOT NULL CHECK (pickup_cost >= 0),
  giver_basis INTEGER CHECK (giver_basis >= 0),
  opening INTEGER NOT NULL CHECK (opening IN (0, 1)),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX acquisitions_from_person ON acquisitions (from_person_id) WHERE from_person_id IS NOT NULL;

CREATE TABLE machines (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  tag TEXT NOT NULL CHECK (tag <> ''),
  acquisition_id INTEGER NOT NULL REFERENCES acquisitions (id),
  kind TEXT NOT NULL
    CHECK (kind IN ('push', 'self-propelled', 'lawn tractor', 'zero-turn', 'trimmer', 'blower', 'other')),
  make TEXT NOT NULL,
  model TEXT NOT NULL,
  model_number TEXT NOT NULL,
  serial TEXT NOT NULL,
  engine TEXT NOT NULL,
  year INTEGER CHECK (year BETWEEN 0 AND 9999),
  deck_in INTEGER CHECK (deck_in >= 0),
  symptom TEXT NOT NULL,
  condition TEXT NOT NULL,
  value_then INTEGER CHECK (value_then >= 0),
  stage TEXT CHECK (stage IN ('in the yard', 'on the bench', 'waiting on parts', 'test run', 'for sale', 'sold',
                              'scrapped', 'parted out', 'kept')),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX machines_acquisition ON machines (acquisition_id);

CREATE TABLE faults (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  code TEXT NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  symptom TEXT NOT NULL,
  cause TEXT NOT NULL,
  ended TEXT CHECK (ended BETWEEN '1900-01-01' AND '9999-12-31' AND date(ended, '+0 days') IS ended),
  how TEXT CHECK (how IN ('mended', 'given up', 'mistaken')),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX faults_machine ON faults (machine_id);

CREATE TABLE findings (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  step TEXT NOT NULL,
  outcome TEXT NOT NULL,
  fault_id INTEGER REFERENCES faults (id),
  minutes INTEGER CHECK (minutes >= 0),
  cost INTEGER NOT NULL CHECK (cost >= 0),
  reading TEXT NOT NULL,
  unit TEXT NOT NULL,
  note TEXT NOT NULL
) STRICT;
CREATE INDEX findings_machine ON findings (machine_id);
CREATE INDEX findings_fault ON findings (fault_id) WHERE fault_id IS NOT NULL;

CREATE TABLE labour (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER REFERENCES machines (id),
  acquisition_id INTEGER REFERENCES acquisitions (id) CHECK (machine_id IS NULL OR acquisition_id IS NULL),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  minutes INTEGER NOT NULL CHECK (minutes >= 0),
  work TEXT NOT NULL CHECK (work IN ('pickup', 'diagnose', 'clean', 'repair', 'service', 'test run', 'list', 'sell',
                                     'comeback', 'other')),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX labour_machine ON labour (machine_id) WHERE machine_id IS NOT NULL;
CREATE INDEX labour_acquisition ON labour (acquisition_id) WHERE acquisition_id IS NOT NULL;

CREATE TABLE parts (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  code TEXT NOT NULL,
  name TEXT NOT NULL,
  number TEXT NOT NULL,
  supplier_id INTEGER REFERENCES people (id),
  reorder_at INTEGER CHECK (reorder_at >= 0)
) STRICT;
CREATE INDEX parts_supplier ON parts (supplier_id) WHERE supplier_id IS NOT NULL;

CREATE TABLE orders (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  code TEXT NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  supplier_id INTEGER REFERENCES people (id),
  arrived TEXT CHECK (arrived BETWEEN '1900-01-01' AND '9999-12-31' AND date(arrived, '+0 days') IS arrived),
  freight INTEGER NOT NULL CHECK (freight >= 0),
  tax INTEGER NOT NULL CHECK (tax >= 0),
  opening INTEGER NOT NULL CHECK (opening IN (0, 1))
) STRICT;
CREATE INDEX orders_supplier ON orders (supplier_id) WHERE supplier_id IS NOT NULL;

CREATE TABLE order_lines (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  order_id INTEGER NOT NULL REFERENCES orders (id),
  part_id INTEGER NOT NULL REFERENCES parts (id),
  quantity INTEGER NOT NULL CHECK (quantity >= 1),
  price INTEGER NOT NULL CHECK (price >= 0),
  for_machine_id INTEGER REFERENCES machines (id)
) STRICT;
CREATE INDEX order_lines_order ON order_lines (order_id);
CREATE INDEX order_lines_part ON order_lines (part_id);
CREATE INDEX order_lines_for_machine ON order_lines (for_machine_id) WHERE for_machine_id IS NOT NULL;

CREATE TABLE harvested (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  donor_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  part_id INTEGER NOT NULL REFERENCES parts (id),
  quantity INTEGER NOT NULL CHECK (quantity >= 1),
  value INTEGER NOT NULL CHECK (value >= 0)
) STRICT;
CREATE INDEX harvested_donor ON harvested (donor_id);
CREATE INDEX harvested_part ON harvested (part_id);

CREATE TABLE fitted (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  part_id INTEGER NOT NULL REFERENCES parts (id),
  quantity INTEGER NOT NULL CHECK (quantity >= 1),
  from_order_id INTEGER REFERENCES orders (id),
  from_donor_id INTEGER REFERENCES machines (id) CHECK (from_order_id IS NULL OR from_donor_id IS NULL)
) STRICT;
CREATE INDEX fitted_machine ON fitted (machine_id) WHERE machine_id IS NOT NULL;
CREATE INDEX fitted_part ON fitted (part_id);
CREATE INDEX fitted_from_order ON fitted (from_order_id) WHERE from_order_id IS NOT NULL;
CREATE INDEX fitted_from_donor ON fitted (from_donor_id) WHERE from_donor_id IS NOT NULL;

CREATE TABLE materials (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  what TEXT NOT NULL,
  cost INTEGER NOT NULL CHECK (cost >= 0)
) STRICT;
CREATE INDEX materials_machine ON materials (machine_id);

CREATE TABLE listings (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  channel TEXT NOT NULL,
  asking INTEGER NOT NULL CHECK (asking >= 0),
  sold_as TEXT CHECK (sold_as IN ('running', 'as is')),
  ended TEXT CHECK (ended BETWEEN '1900-01-01' AND '9999-12-31' AND date(ended, '+0 days') IS ended)
) STRICT;
CREATE INDEX listings_machine ON listings (machine_id);

CREATE TABLE offers (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  amount INTEGER NOT NULL CHECK (amount >= 0),
  who TEXT NOT NULL,
  comes TEXT CHECK (comes BETWEEN '1900-01-01' AND '9999-12-31' AND date(comes, '+0 days') IS comes),
  result TEXT CHECK (result IN ('taken', 'refused', 'gone', 'no show'))
) STRICT;
CREATE INDEX offers_machine ON offers (machine_id);

CREATE TABLE sales (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  buyer_id INTEGER REFERENCES people (id),
  price INTEGER NOT NULL CHECK (price >= 0),
  sales_tax INTEGER NOT NULL CHECK (sales_tax >= 0),
  fee INTEGER NOT NULL CHECK (fee >= 0),
  delivery INTEGER NOT NULL CHECK (delivery >= 0),
  payment TEXT NOT NULL,
  sold_as TEXT CHECK (sold_as IN ('running', 'as is')),
  warranty_days INTEGER CHECK (warranty_days >= 0),
  place TEXT NOT NULL
) STRICT;
CREATE INDEX sales_machine ON sales (machine_id);
CREATE INDEX sales_buyer ON sales (buyer_id) WHERE buyer_id IS NOT NULL;

CREATE TABLE returns (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  refunded INTEGER NOT NULL CHECK (refunded >= 0),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX returns_machine ON returns (machine_id);

CREATE TABLE allowances (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  amount INTEGER NOT NULL CHECK (amount >= 0),
  sales_tax INTEGER NOT NULL CHECK (sales_tax >= 0),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX allowances_machine ON allowances (machine_id);

CREATE TABLE parts_sold (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  part_id INTEGER NOT NULL REFERENCES parts (id),
  quantity INTEGER NOT NULL CHECK (quantity >= 1),
  price INTEGER NOT NULL CHECK (price >= 0),
  from_order_id INTEGER REFERENCES orders (id),
  from_donor_id INTEGER REFERENCES machines (id) CHECK (from_order_id IS NULL OR from_donor_id IS NULL),
  buyer_id INTEGER REFERENCES people (id),
  sales_tax INTEGER NOT NULL CHECK (sales_tax >= 0),
  fee INTEGER NOT NULL CHECK (fee >= 0),
  place TEXT NOT NULL
) STRICT;
CREATE INDEX parts_sold_part ON parts_sold (part_id);
CREATE INDEX parts_sold_from_order ON parts_sold (from_order_id) WHERE from_order_id IS NOT NULL;
CREATE INDEX parts_sold_from_donor ON parts_sold (from_donor_id) WHERE from_donor_id IS NOT NULL;
CREATE INDEX parts_sold_buyer ON parts_sold (buyer_id) WHERE buyer_id IS NOT NULL;

CREATE TABLE tax_paid (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  place TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount >= 0)
) STRICT;

CREATE TABLE disposals (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  how TEXT NOT NULL CHECK (how IN ('scrapped', 'parted out', 'kept')),
  proceeds INTEGER NOT NULL CHECK (proceeds >= 0),
  hulk_value INTEGER CHECK (hulk_value >= 0),
  hulk_gone TEXT CHECK (hulk_gone BETWEEN '1900-01-01' AND '9999-12-31' AND date(hulk_gone, '+0 days') IS hulk_gone),
  hulk_here INTEGER NOT NULL CHECK (hulk_here IN (0, 1))
) STRICT;
CREATE INDEX disposals_machine ON disposals (machine_id);

CREATE TABLE trips (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  miles INTEGER NOT NULL CHECK (miles >= 0),
  purpose TEXT NOT NULL,
  destination TEXT NOT NULL,
  machine_id INTEGER REFERENCES machines (id),
  acquisition_id INTEGER REFERENCES acquisitions (id) CHECK (machine_id IS NULL OR acquisition_id IS NULL)
) STRICT;
CREATE INDEX trips_machine ON trips (machine_id) WHERE machine_id IS NOT NULL;
CREATE INDEX trips_acquisition ON trips (acquisition_id) WHERE acquisition_id IS NOT NULL;

CREATE TABLE expenses (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  category TEXT NOT NULL,
  amount INTEGER NOT NULL CHECK (amount >= 0),
  note TEXT NOT NULL
) STRICT;

CREATE TABLE photos (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64 AND sha256 NOT GLOB '*[^0-9a-f]*'),
  name TEXT NOT NULL,
  machine_id INTEGER REFERENCES machines (id),
  order_id INTEGER REFERENCES orders (id),
  expense_id INTEGER REFERENCES expenses (id),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX photos_machine ON photos (machine_id) WHERE machine_id IS NOT NULL;
CREATE INDEX photos_order ON photos (order_id) WHERE order_id IS NOT NULL;
CREATE INDEX photos_expense ON photos (expense_id) WHERE expense_id IS NOT NULL;

-- Not recorded: no action or undo changes what stands below through a changeset.

-- One row. `next_id` never goes back. `revision` goes up with every action, undo, redo and change of settings; `stamp`
-- is drawn anew each time, so that what was derived from another copy of the file is not taken for this one's.
CREATE TABLE state (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  next_id INTEGER NOT NULL CHECK (next_id >= 1),
  revision INTEGER NOT NULL CHECK (revision >= 0),
  stamp INTEGER NOT NULL,
  sitting INTEGER NOT NULL CHECK (sitting >= 0)
) STRICT;

-- One row: what the owner says about the shop.
CREATE TABLE settings (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  name TEXT NOT NULL,
  currency TEXT NOT NULL CHECK (length(currency) = 3),
  hour_value INTEGER CHECK (hour_value >= 0),
  day_cost INTEGER CHECK (day_cost >= 0),
  hours_a_week INTEGER CHECK (hours_a_week >= 0),
  unit_of_distance TEXT NOT NULL CHECK (unit_of_distance IN ('mi', 'km'))
) STRICT;

-- One row an action. `changes` is the number of rows in `changeset`; without a changeset the action cannot be undone,
-- and `backup` may name the copy that was made before it.
CREATE TABLE history (
  id INTEGER PRIMARY KEY,
  at INTEGER NOT NULL,
  title TEXT NOT NULL,
  sitting INTEGER NOT NULL,
  user_version INTEGER NOT NULL,
  undone INTEGER NOT NULL CHECK (undone IN (0, 1)),
  changes INTEGER NOT NULL CHECK (changes >= 0),
  changeset BLOB,
  backup TEXT NOT NULL
) STRICT;

CREATE TABLE drafts (
  form TEXT PRIMARY KEY,
  text TEXT NOT NULL,
  saved INTEGER NOT NULL
) STRICT;

CREATE TABLE preferences (
  key TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT;

-- At most one row: the running bench clock.
CREATE TABLE clock (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  machine_id INTEGER NOT NULL,
  started INTEGER NOT NULL
) STRICT;
