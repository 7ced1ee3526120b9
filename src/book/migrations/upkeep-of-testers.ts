import type { Migration } from './migration.ts'

const sql = `
CREATE TABLE found (
  id INTEGER PRIMARY KEY,
  tester TEXT NOT NULL REFERENCES tester (id),
  day TEXT NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  note TEXT,
  parts TEXT NOT NULL CHECK (json_type(parts) = 'array'),
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  at TEXT NOT NULL
) STRICT;
CREATE INDEX found_of_tester ON found (tester, day);

CREATE TABLE check_standard (
  id INTEGER PRIMARY KEY,
  tester TEXT NOT NULL REFERENCES tester (id),
  part INTEGER NOT NULL REFERENCES part (id),
  symbol TEXT NOT NULL CHECK (symbol <> ''),
  low REAL,
  high REAL,
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  at TEXT NOT NULL,
  CHECK (low < high)
) STRICT;
CREATE UNIQUE INDEX check_standard_of_tester ON check_standard (tester, part, symbol) WHERE removed = 0;
CREATE INDEX check_standard_of_part ON check_standard (part);
`

/** Version 6: parts of testers as they were found, and the check standards by which testers are watched. */
export const upkeepOfTesters: Migration = { number: 6, name: 'upkeep of testers', sql }
