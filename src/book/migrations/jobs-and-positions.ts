import { appendOnly } from './guard.ts'
import type { Migration } from './migration.ts'

const jobs = `
CREATE TABLE job (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (name <> ''),
  equipment TEXT,
  power TEXT CHECK (power IN ('battery', 'mains')),
  state TEXT NOT NULL CHECK (state IN ('open', 'waiting', 'done')),
  note TEXT,
  begun_on TEXT,
  finished_on TEXT,
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  at TEXT NOT NULL
) STRICT;
CREATE UNIQUE INDEX job_of_name ON job (name) WHERE removed = 0;

CREATE TABLE position (
  id INTEGER PRIMARY KEY,
  job INTEGER NOT NULL REFERENCES job (id),
  ref TEXT NOT NULL CHECK (ref <> ''),
  type TEXT,
  role TEXT,
  circuit TEXT,
  found TEXT,
  found_part INTEGER REFERENCES part (id),
  decision TEXT NOT NULL CHECK (decision IN ('undecided', 'keep', 'replace')),
  fitted TEXT,
  fitted_part INTEGER REFERENCES part (id),
  done INTEGER NOT NULL DEFAULT 0 CHECK (done IN (0, 1)),
  note TEXT,
  at TEXT NOT NULL,
  UNIQUE (job, ref)
) STRICT;
CREATE INDEX position_of_found ON position (found_part);
CREATE INDEX position_of_fitted ON position (fitted_part);

CREATE TABLE reserved (
  part INTEGER PRIMARY KEY REFERENCES part (id),
  job INTEGER NOT NULL REFERENCES job (id),
  position INTEGER REFERENCES position (id),
  at TEXT NOT NULL
) STRICT;
CREATE INDEX reserved_of_job ON reserved (job);
CREATE INDEX reserved_of_position ON reserved (position);
`

/** A photo is of a part or of a job: the table is made anew, since a column cannot be loosened. */
const photos = `
CREATE TABLE photo_anew (
  id INTEGER PRIMARY KEY,
  part INTEGER REFERENCES part (id),
  job INTEGER REFERENCES job (id),
  name TEXT NOT NULL,
  type TEXT NOT NULL CHECK (type IN ('image/png', 'image/jpeg', 'image/webp')),
  removed INTEGER NOT NULL DEFAULT 0 CHECK (removed IN (0, 1)),
  at TEXT NOT NULL,
  bytes BLOB NOT NULL,
  CHECK ((part IS NULL) <> (job IS NULL))
) STRICT;
INSERT INTO photo_anew (id, part, name, type, removed, at, bytes)
SELECT id, part, name, type, removed, at, bytes FROM photo ORDER BY id;
DROP TABLE photo;
ALTER TABLE photo_anew RENAME TO photo;
CREATE INDEX photo_of_part ON photo (part);
CREATE INDEX photo_of_job ON photo (job);
`

/** The kinds of edits are no longer listed in the table, so that a later one needs no new table. */
const journal = `
CREATE TABLE journal_anew (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL CHECK (kind <> ''),
  say TEXT NOT NULL,
  change TEXT NOT NULL CHECK (json_valid(change)),
  undoes INTEGER UNIQUE REFERENCES journal_anew (id),
  at TEXT NOT NULL
) STRICT;
INSERT INTO journal_anew (id, kind, say, change, undoes, at)
SELECT id, kind, say, change, undoes, at FROM journal ORDER BY id;
DROP TABLE journal;
ALTER TABLE journal_anew RENAME TO journal;
${appendOnly('journal', 'edits in the journal')}
`

const touch = (part: string): string => `
  INSERT INTO touched (part, version) VALUES (${part}, 1 + coalesce((SELECT max(version) FROM touched), 0))
  ON CONFLICT (part) DO UPDATE SET version = excluded.version;`

const touchAll = (job: string): string => `
  INSERT INTO touched (part, version)
  SELECT part, row_number() OVER (ORDER BY part) + coalesce((SELECT max(version) FROM touched), 0)
  FROM reserved WHERE ${job}
  ON CONFLICT (part) DO UPDATE SET version = excluded.version;`

const touching = `
CREATE TRIGGER photo_added_touches AFTER INSERT ON photo WHEN NEW.part IS NOT NULL BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER photo_changed_touches AFTER UPDATE ON photo WHEN NEW.part IS NOT NULL BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER reserved_touches AFTER INSERT ON reserved BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER reserved_again_touches AFTER UPDATE ON reserved BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER released_touches AFTER DELETE ON reserved BEGIN ${touch('OLD.part')} END;
CREATE TRIGGER job_named_touches AFTER UPDATE OF name ON job BEGIN ${touchAll('job = NEW.id')} END;
CREATE TRIGGER position_named_touches AFTER UPDATE OF ref ON position BEGIN ${touchAll('position = NEW.id')} END;
`

/** Version 5: jobs with their positions, parts reserved for them, and their photos. */
export const jobsAndPositions: Migration = {
  number: 5,
  name: 'jobs and their positions',
  sql: jobs + photos + journal + touching,
}
