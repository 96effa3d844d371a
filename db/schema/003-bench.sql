-- Machines seen and not taken in yet with what their sellers said, numbers that the owner says for one machine, and
-- entries of the knowledge base as the shop has them. All are recorded tables.

CREATE TABLE finds (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  kind TEXT NOT NULL
    CHECK (kind IN ('push', 'self-propelled', 'lawn tractor', 'zero-turn', 'trimmer', 'blower', 'other')),
  make TEXT NOT NULL,
  model TEXT NOT NULL,
  year INTEGER CHECK (year BETWEEN 1 AND 9999),
  symptom TEXT NOT NULL,
  asking INTEGER NOT NULL CHECK (asking >= 0),
  miles INTEGER CHECK (miles >= 0),
  minutes INTEGER CHECK (minutes >= 0),
  pickup_cost INTEGER NOT NULL CHECK (pickup_cost >= 0),
  place TEXT NOT NULL,
  ended TEXT CHECK (ended BETWEEN '1900-01-01' AND '9999-12-31' AND date(ended, '+0 days') IS ended),
  how TEXT CHECK (how IN ('bought', 'passed on', 'gone')),
  machine_id INTEGER REFERENCES machines (id),
  note TEXT NOT NULL
) STRICT;
CREATE INDEX finds_machine ON finds (machine_id) WHERE machine_id IS NOT NULL;

CREATE TABLE find_answers (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  find_id INTEGER NOT NULL REFERENCES finds (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  test TEXT NOT NULL,
  outcome TEXT NOT NULL
) STRICT;
CREATE INDEX find_answers_find ON find_answers (find_id);

-- A value is in the unit of the number that its path names, and finite.
CREATE TABLE own_numbers (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  path TEXT NOT NULL CHECK (path <> ''),
  value REAL NOT NULL CHECK (value BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308)
) STRICT;
CREATE INDEX own_numbers_machine ON own_numbers (machine_id);

CREATE TABLE knowledge_edits (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  section TEXT NOT NULL CHECK (section <> ''),
  entry TEXT NOT NULL CHECK (entry <> ''),
  text TEXT NOT NULL
) STRICT;
