-- Years whose books are closed, and their figures as they were then. Recorded tables: closing a year and opening it
-- again are actions that can be undone. A size is in minor units, minutes, tenths of a mile or machines, by the line.

CREATE TABLE closed_years (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  year INTEGER NOT NULL CHECK (year BETWEEN 1900 AND 9999),
  closed TEXT NOT NULL CHECK (closed BETWEEN '1900-01-01' AND '9999-12-31' AND date(closed, '+0 days') IS closed)
) STRICT;

CREATE TABLE kept_figures (
  id INTEGER PRIMARY KEY,
  entered INTEGER NOT NULL,
  closed_year_id INTEGER NOT NULL REFERENCES closed_years (id),
  line TEXT NOT NULL CHECK (line <> ''),
  name TEXT NOT NULL,
  size INTEGER NOT NULL
) STRICT;
CREATE INDEX kept_figures_closed_year ON kept_figures (closed_year_id);
