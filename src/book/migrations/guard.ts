/** The database itself holds that rows of these tables are neither changed, deleted nor overwritten. */
export const appendOnly = (table: string, what: string): string => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${what} are kept for ever: one cannot be changed'); END;
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${what} are kept for ever: one cannot be deleted'); END;
CREATE TRIGGER ${table}_is_never_overwritten BEFORE INSERT ON ${table}
WHEN EXISTS (SELECT 1 FROM ${table} WHERE id = NEW.id)
BEGIN SELECT RAISE(ABORT, '${what} are kept for ever: one cannot be overwritten'); END;
`
