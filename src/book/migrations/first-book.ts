import { appendOnly } from './guard.ts'
import type { Migration } from './migration.ts'

const kept = `
CREATE TABLE setting (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL CHECK (json_valid(value))
) STRICT;

CREATE TABLE tester (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL
) STRICT;

CREATE TABLE tester_version (
  id INTEGER PRIMARY KEY,
  tester TEXT NOT NULL REFERENCES tester (id),
  version INTEGER NOT NULL CHECK (version >= 1),
  description TEXT,
  parsed TEXT NOT NULL CHECK (json_valid(parsed)),
  at TEXT NOT NULL,
  UNIQUE (tester, version)
) STRICT;

CREATE TABLE part_type (
  id INTEGER PRIMARY KEY,
  type TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version >= 1),
  record TEXT NOT NULL CHECK (json_valid(record)),
  at TEXT NOT NULL,
  UNIQUE (type, version)
) STRICT;

CREATE TABLE lot (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  note TEXT,
  at TEXT NOT NULL
) STRICT;

CREATE TABLE part (
  id INTEGER PRIMARY KEY,
  tag TEXT NOT NULL UNIQUE CHECK (tag <> ''),
  type TEXT,
  lot INTEGER REFERENCES lot (id),
  place TEXT,
  note TEXT,
  status TEXT NOT NULL,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX part_of_lot ON part (lot);

CREATE TABLE edit (
  id INTEGER PRIMARY KEY,
  part INTEGER NOT NULL REFERENCES part (id),
  field TEXT NOT NULL,
  old TEXT,
  new TEXT,
  at TEXT NOT NULL
) STRICT;
CREATE INDEX edit_of_part ON edit (part);

CREATE TABLE run (
  id INTEGER PRIMARY KEY,
  tester_version INTEGER NOT NULL REFERENCES tester_version (id),
  part_type TEXT CHECK (json_valid(part_type)),
  sheet TEXT CHECK (json_valid(sheet)),
  ambient REAL,
  ambient_u REAL CHECK (ambient_u >= 0),
  note TEXT,
  state TEXT NOT NULL CHECK (state IN ('open', 'finished', 'stopped')),
  started_at TEXT NOT NULL,
  finished_at TEXT
) STRICT;
CREATE INDEX run_of_tester ON run (tester_version);

CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  run INTEGER NOT NULL REFERENCES run (id),
  part INTEGER NOT NULL REFERENCES part (id),
  type TEXT,
  reads TEXT NOT NULL,
  shown TEXT NOT NULL CHECK (json_valid(shown)),
  seen TEXT NOT NULL,
  range TEXT,
  scale TEXT,
  point INTEGER NOT NULL,
  supply REAL,
  ambient REAL,
  ambient_u REAL CHECK (ambient_u >= 0),
  at TEXT,
  note TEXT,
  replaces INTEGER UNIQUE REFERENCES reading (id),
  entered_at TEXT NOT NULL
) STRICT;
CREATE INDEX reading_of_run ON reading (run, part);
CREATE INDEX reading_of_part ON reading (part);

CREATE TABLE import_log (
  id INTEGER PRIMARY KEY,
  file TEXT NOT NULL,
  hash TEXT NOT NULL,
  rows INTEGER NOT NULL,
  run INTEGER NOT NULL REFERENCES run (id),
  at TEXT NOT NULL
) STRICT;
CREATE INDEX import_of_hash ON import_log (hash);
CREATE INDEX import_of_run ON import_log (run);
`

const computed = `
CREATE TABLE result (
  run INTEGER NOT NULL REFERENCES run (id),
  part INTEGER NOT NULL REFERENCES part (id),
  type TEXT,
  state TEXT NOT NULL,
  doubts TEXT NOT NULL CHECK (json_valid(doubts)),
  at TEXT NOT NULL,
  PRIMARY KEY (run, part)
) STRICT;
CREATE INDEX result_of_part ON result (part);

CREATE TABLE parameter (
  id INTEGER PRIMARY KEY,
  run INTEGER NOT NULL,
  part INTEGER NOT NULL,
  symbol TEXT NOT NULL,
  value REAL NOT NULL,
  uncertainty REAL NOT NULL,
  unit TEXT NOT NULL,
  formula TEXT,
  version INTEGER,
  record TEXT NOT NULL CHECK (json_valid(record)),
  FOREIGN KEY (run, part) REFERENCES result (run, part) ON DELETE CASCADE
) STRICT;
CREATE INDEX parameter_of_result ON parameter (run, part);

CREATE TABLE verdict (
  id INTEGER PRIMARY KEY,
  run INTEGER NOT NULL,
  part INTEGER NOT NULL,
  symbol TEXT NOT NULL,
  verdict TEXT NOT NULL,
  probability REAL CHECK (probability BETWEEN 0 AND 1),
  record TEXT NOT NULL CHECK (json_valid(record)),
  FOREIGN KEY (run, part) REFERENCES result (run, part) ON DELETE CASCADE
) STRICT;
CREATE INDEX verdict_of_result ON verdict (run, part);
`

const guards = `
${appendOnly('reading', 'readings')}
${appendOnly('tester_version', 'versions of a tester')}
${appendOnly('part_type', 'versions of a part type')}
${appendOnly('edit', 'edits')}
${appendOnly('import_log', 'imports')}

CREATE TRIGGER correction_stays_in_its_run BEFORE INSERT ON reading
WHEN NEW.replaces IS NOT NULL AND (SELECT run FROM reading WHERE id = NEW.replaces) IS NOT NEW.run
BEGIN SELECT RAISE(ABORT, 'a correction belongs to the run of the reading it replaces'); END;

CREATE TRIGGER reading_makes_its_result_stale AFTER INSERT ON reading
BEGIN DELETE FROM result WHERE run = NEW.run AND part = NEW.part; END;

CREATE TRIGGER correction_makes_the_old_result_stale AFTER INSERT ON reading WHEN NEW.replaces IS NOT NULL
BEGIN
  DELETE FROM result WHERE run = NEW.run AND part = (SELECT part FROM reading WHERE id = NEW.replaces);
END;
`

/** Version 1: testers, part types, lots, parts, runs, readings, and what is computed from them. */
export const firstBook: Migration = { number: 1, name: 'the first book', sql: kept + computed + guards }
