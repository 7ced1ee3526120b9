import { appendOnly } from './guard.ts'
import type { Migration } from './migration.ts'

const sql = `
CREATE TABLE curve (
  id INTEGER PRIMARY KEY,
  part INTEGER NOT NULL REFERENCES part (id),
  kind TEXT NOT NULL CHECK (kind IN ('diode', 'bjt', 'jfet', 'mosfet')),
  polarity TEXT NOT NULL CHECK (polarity IN ('n', 'p')),
  temperature REAL,
  taken_at TEXT,
  file TEXT NOT NULL,
  hash TEXT NOT NULL,
  note TEXT,
  notes TEXT NOT NULL CHECK (json_valid(notes)),
  points TEXT NOT NULL CHECK (json_valid(points) AND json_array_length(points) > 0),
  at TEXT NOT NULL
) STRICT;
CREATE INDEX curve_of_part ON curve (part);
CREATE INDEX curve_of_hash ON curve (hash);

${appendOnly('curve', 'curves')}

CREATE TRIGGER curve_added_touches AFTER INSERT ON curve
BEGIN
  INSERT INTO touched (part, version) VALUES (NEW.part, 1 + coalesce((SELECT max(version) FROM touched), 0))
  ON CONFLICT (part) DO UPDATE SET version = excluded.version;
END;
`

/** Version 4: curves of parts, as they were read. */
export const curvesOfParts: Migration = { number: 4, name: 'curves of parts', sql }
