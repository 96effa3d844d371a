-- What plans promised, own words for listings, and deposits. All are recorded tables.

-- Amounts in whole units of the currency, not in minor ones: they are estimates.
CREATE TABLE forecasts (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  fault_id INTEGER NOT NULL REFERENCES faults (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  chance_revived REAL NOT NULL CHECK (chance_revived BETWEEN 0 AND 1),
  cash REAL NOT NULL CHECK (cash BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  low REAL NOT NULL CHECK (low BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  high REAL NOT NULL CHECK (high BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  hours REAL NOT NULL CHECK (hours BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  days REAL NOT NULL CHECK (days BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  price REAL NOT NULL CHECK (price BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  sunk_cash REAL NOT NULL CHECK (sunk_cash BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308),
  sunk_hours REAL NOT NULL CHECK (sunk_hours BETWEEN -1.7976931348623157e308 AND 1.7976931348623157e308)
) STRICT;
CREATE INDEX forecasts_machine ON forecasts (machine_id);
CREATE INDEX forecasts_fault ON forecasts (fault_id);

CREATE TABLE forecast_causes (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  forecast_id INTEGER NOT NULL REFERENCES forecasts (id),
  cause TEXT NOT NULL CHECK (cause <> ''),
  chance REAL NOT NULL CHECK (chance BETWEEN 0 AND 1)
) STRICT;
CREATE INDEX forecast_causes_forecast ON forecast_causes (forecast_id);

CREATE TABLE listing_texts (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  machine_id INTEGER NOT NULL REFERENCES machines (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  text TEXT NOT NULL
) STRICT;
CREATE INDEX listing_texts_machine ON listing_texts (machine_id);

CREATE TABLE deposits (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  offer_id INTEGER NOT NULL REFERENCES offers (id),
  date TEXT NOT NULL CHECK (date BETWEEN '1900-01-01' AND '9999-12-31' AND date(date, '+0 days') IS date),
  amount INTEGER NOT NULL CHECK (amount >= 0),
  payment TEXT NOT NULL,
  returned TEXT CHECK (returned BETWEEN '1900-01-01' AND '9999-12-31' AND date(returned, '+0 days') IS returned)
) STRICT;
CREATE INDEX deposits_offer ON deposits (offer_id);
