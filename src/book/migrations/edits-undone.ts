import { appendOnly } from './guard.ts'
import type { Migration } from './migration.ts'

const sql = `
ALTER TABLE part ADD COLUMN used_in TEXT;

CREATE TABLE journal (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind IN ('part', 'part type', 'tester', 'photo', 'reading')),
  say TEXT NOT NULL,
  change TEXT NOT NULL CHECK (json_valid(change)),
  undoes INTEGER UNIQUE REFERENCES journal (id),
  at TEXT NOT NULL
) STRICT;

CREATE TABLE withdrawn (
  kind TEXT NOT NULL CHECK (kind IN ('part type', 'tester')),
  name TEXT NOT NULL,
  at TEXT NOT NULL,
  PRIMARY KEY (kind, name)
) STRICT;

CREATE TABLE photo (
  id INTEGER PRIMARY KEY,
  part INTEGER NOT NULL REFERENCES part (id),
  name TEXT NOT NULL,
  type TEXT NOT NULL CHECK (type IN ('image/png', 'image/jpeg', 'image/webp')),
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  at TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE INDEX photo_of_part ON photo (part);

CREATE TABLE taken (
  client TEXT PRIMARY KEY,
  reading INTEGER NOT NULL UNIQUE REFERENCES reading (id)
) STRICT;

${appendOnly('journal', 'edits in the journal')}
`

/** Version 2: where a part is used, photos, a journal of edits that can be undone, readings taken once. */
export const editsUndone: Migration = { number: 2, name: 'edits that can be undone, and photos', sql }
