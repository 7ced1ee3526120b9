import type { Migration } from './migration.ts'

/**
 * `figures` by letter symbol: unit, value, standard uncertainty, and the value at 25 degC or null. The first parameter
 * of a symbol counts.
 */
const drawer = `
CREATE TABLE newest (
  part INTEGER PRIMARY KEY REFERENCES part (id),
  run INTEGER NOT NULL REFERENCES run (id),
  state TEXT NOT NULL,
  verdict TEXT,
  figures TEXT NOT NULL CHECK (json_valid(figures))
) STRICT;
CREATE INDEX newest_of_run ON newest (run);
CREATE INDEX correction_of_run ON reading (run, replaces) WHERE replaces IS NOT NULL;

CREATE TABLE touched (
  part INTEGER PRIMARY KEY REFERENCES part (id),
  version INTEGER NOT NULL UNIQUE
) STRICT;
`

const filled = `
INSERT INTO newest (part, run, state, verdict, figures)
SELECT part, run, state,
  CASE WHEN state <> 'measured' THEN 'does not conform' ELSE (
    SELECT verdict FROM verdict WHERE verdict.run = r.run AND verdict.part = r.part
    ORDER BY CASE verdict WHEN 'does not conform' THEN 1 WHEN 'undecided' THEN 2 WHEN 'conforms' THEN 3 ELSE 4 END
    LIMIT 1
  ) END,
  coalesce((
    SELECT json_group_object(symbol, json_array(unit, value, uncertainty, (
      SELECT value FROM parameter AS warm
      WHERE warm.run = r.run AND warm.part = r.part AND warm.symbol = p.symbol
        AND json_extract(warm.record, '$.standing') <> 'measured'
      ORDER BY warm.id LIMIT 1
    )))
    FROM parameter AS p
    WHERE p.id IN (
      SELECT min(id) FROM parameter
      WHERE run = r.run AND part = r.part AND json_extract(record, '$.standing') = 'measured'
        AND symbol NOT IN ('P', 'T_J', 'h_FE(I_CEO)', 'h_FE0(I_CBO)')
      GROUP BY symbol
    )
  ), '{}')
FROM result AS r
WHERE run = (SELECT max(run) FROM result AS other WHERE other.part = r.part);

INSERT INTO touched (part, version) SELECT id, row_number() OVER (ORDER BY id) FROM part;
`

const touch = (part: string): string => `
  INSERT INTO touched (part, version) VALUES (${part}, 1 + coalesce((SELECT max(version) FROM touched), 0))
  ON CONFLICT (part) DO UPDATE SET version = excluded.version;`

const touching = `
CREATE TRIGGER newest_added_touches AFTER INSERT ON newest BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER newest_changed_touches AFTER UPDATE ON newest BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER newest_dropped_touches AFTER DELETE ON newest BEGIN ${touch('OLD.part')} END;
CREATE TRIGGER photo_added_touches AFTER INSERT ON photo BEGIN ${touch('NEW.part')} END;
CREATE TRIGGER photo_changed_touches AFTER UPDATE ON photo BEGIN ${touch('NEW.part')} END;

CREATE TRIGGER reading_makes_the_newest_stale AFTER INSERT ON reading
BEGIN DELETE FROM newest WHERE part = NEW.part AND run = NEW.run; END;
CREATE TRIGGER correction_makes_the_newest_stale AFTER INSERT ON reading WHEN NEW.replaces IS NOT NULL
BEGIN
  DELETE FROM newest WHERE run = NEW.run AND part = (SELECT part FROM reading WHERE id = NEW.replaces);
END;
`

const search = `
CREATE VIRTUAL TABLE part_text USING fts5 (tag, type, lot, place, used_in, note, tokenize = 'trigram');
CREATE VIRTUAL TABLE reading_text USING fts5 (note, tokenize = 'trigram');

INSERT INTO part_text (rowid, tag, type, lot, place, used_in, note)
SELECT part.id, part.tag, part.type, lot.name, part.place, part.used_in, part.note
FROM part LEFT JOIN lot ON lot.id = part.lot;
INSERT INTO reading_text (rowid, note) SELECT id, note FROM reading WHERE note IS NOT NULL;

CREATE TRIGGER part_added_is_found AFTER INSERT ON part
BEGIN
  INSERT INTO part_text (rowid, tag, type, lot, place, used_in, note)
  VALUES (NEW.id, NEW.tag, NEW.type, (SELECT name FROM lot WHERE id = NEW.lot), NEW.place, NEW.used_in, NEW.note);
  ${touch('NEW.id')}
END;
CREATE TRIGGER part_changed_is_found AFTER UPDATE ON part
BEGIN
  UPDATE part_text SET tag = NEW.tag, type = NEW.type, lot = (SELECT name FROM lot WHERE id = NEW.lot),
    place = NEW.place, used_in = NEW.used_in, note = NEW.note WHERE rowid = NEW.id;
  ${touch('NEW.id')}
END;
CREATE TRIGGER reading_note_is_found AFTER INSERT ON reading WHEN NEW.note IS NOT NULL
BEGIN INSERT INTO reading_text (rowid, note) VALUES (NEW.id, NEW.note); END;
`

/** Version 3: the newest results of each part in short, what changed since when, and an index of words. */
export const drawerAndSearch: Migration = {
  number: 3,
  name: 'the drawer and the search',
  sql: drawer + filled + touching + search,
}
