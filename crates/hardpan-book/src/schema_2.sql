ALTER TABLE inspection ADD COLUMN photos TEXT;
ALTER TABLE damage ADD COLUMN photos TEXT;
ALTER TABLE assessment ADD COLUMN inputs TEXT CHECK (inputs IS NULL OR json_valid(inputs));

-- The kinds of an entry stand in a check, which cannot be altered: the table is
-- made anew. References to it are looked at again when all is done.
CREATE TABLE entry_2 (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    kind TEXT NOT NULL CHECK (kind IN (
        'movement', 'inspection', 'damage', 'repair', 'closure', 'assessment', 'equipment',
        'survey', 'withdrawal')),
    recorded_at TEXT NOT NULL CHECK (recorded_at GLOB '????-??-??T??:??:??*Z'),
    recorded_by TEXT NOT NULL CHECK (recorded_by <> ''),
    supersedes INTEGER UNIQUE REFERENCES entry (id) CHECK (supersedes < id),
    why TEXT CHECK (why <> ''),
    digest TEXT NOT NULL CHECK (length(digest) = 64),
    CHECK ((supersedes IS NULL) = (why IS NULL)),
    CHECK (kind <> 'withdrawal' OR supersedes IS NOT NULL),
    UNIQUE (id, kind)
) STRICT;
INSERT INTO entry_2 SELECT id, kind, recorded_at, recorded_by, supersedes, why, digest
    FROM entry ORDER BY id;
DROP TRIGGER entry_is_not_deleted;
DROP TABLE entry;
ALTER TABLE entry_2 RENAME TO entry;

CREATE TRIGGER entry_rises BEFORE INSERT ON entry
WHEN NEW.id <> (SELECT coalesce(max(id), 0) + 1 FROM entry)
BEGIN SELECT RAISE(ABORT, 'entries are numbered one after the other'); END;

CREATE TRIGGER entry_supersedes_its_kind BEFORE INSERT ON entry
WHEN NEW.supersedes IS NOT NULL AND NEW.kind <> 'withdrawal'
    AND NEW.kind IS NOT (SELECT kind FROM entry WHERE id = NEW.supersedes)
BEGIN SELECT RAISE(ABORT, 'an entry supersedes one of its own kind'); END;

CREATE TRIGGER withdrawal_stays BEFORE INSERT ON entry
WHEN (SELECT kind FROM entry WHERE id = NEW.supersedes) = 'withdrawal'
BEGIN SELECT RAISE(ABORT, 'a withdrawal stays'); END;

CREATE TRIGGER entry_is_not_changed BEFORE UPDATE ON entry
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER entry_is_not_deleted BEFORE DELETE ON entry
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;

CREATE TABLE equipment (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'equipment' CHECK (entry_kind = 'equipment'),
    tail TEXT NOT NULL CHECK (tail <> ''),
    item TEXT NOT NULL CHECK (item <> ''),
    state TEXT NOT NULL CHECK (state IN ('serviceable', 'unserviceable', 'removed')),
    at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??*Z'),
    due TEXT CHECK (due GLOB '????-??-??'),
    remarks TEXT,
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;

CREATE TABLE survey (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'survey' CHECK (entry_kind = 'survey'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    what TEXT NOT NULL CHECK (what IN ('levels', 'soundings', 'strength tests', 'ruts')),
    date TEXT NOT NULL CHECK (date GLOB '????-??-??'),
    file TEXT NOT NULL CHECK (file <> ''),
    sha256 TEXT CHECK (length(sha256) = 64),
    due TEXT CHECK (due GLOB '????-??-??'),
    remarks TEXT,
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;

CREATE TRIGGER equipment_is_not_changed BEFORE UPDATE ON equipment
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER equipment_is_not_deleted BEFORE DELETE ON equipment
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER survey_is_not_changed BEFORE UPDATE ON survey
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER survey_is_not_deleted BEFORE DELETE ON survey
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
