-- Where the aeroplane was when it was damaged, and the versions of its files that
-- an assessment was made from, by their digests.
ALTER TABLE damage ADD COLUMN station_m REAL CHECK (station_m >= 0);
ALTER TABLE assessment ADD COLUMN versions TEXT CHECK (versions IS NULL OR json_valid(versions));

-- The kinds of an entry stand in a check, which cannot be altered: the table is
-- made anew. References to it are looked at again when all is done.
CREATE TABLE entry_4 (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    kind TEXT NOT NULL CHECK (kind IN (
        'movement', 'inspection', 'damage', 'repair', 'closure', 'assessment', 'equipment',
        'survey', 'aeroplane', 'strip', 'day', 'flight', 'withdrawal')),
    recorded_at TEXT NOT NULL CHECK (recorded_at GLOB '????-??-??T??:??:??*Z'),
    recorded_by TEXT NOT NULL CHECK (recorded_by <> ''),
    supersedes INTEGER UNIQUE REFERENCES entry (id) CHECK (supersedes < id),
    why TEXT CHECK (why <> ''),
    digest TEXT NOT NULL CHECK (length(digest) = 64),
    mark TEXT CHECK (length(mark) BETWEEN 8 AND 64),
    CHECK ((supersedes IS NULL) = (why IS NULL)),
    CHECK (kind <> 'withdrawal' OR supersedes IS NOT NULL),
    UNIQUE (id, kind)
) STRICT;
INSERT INTO entry_4 SELECT id, kind, recorded_at, recorded_by, supersedes, why, digest, mark
    FROM entry ORDER BY id;
DROP TRIGGER entry_is_not_deleted;
DROP TABLE entry;
ALTER TABLE entry_4 RENAME TO entry;
CREATE UNIQUE INDEX entry_mark ON entry (mark) WHERE mark IS NOT NULL;

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

CREATE TABLE aeroplane (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'aeroplane' CHECK (entry_kind = 'aeroplane'),
    tail TEXT NOT NULL CHECK (tail <> ''),
    file TEXT NOT NULL CHECK (file <> ''),
    sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
    files TEXT NOT NULL CHECK (json_valid(files)),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TRIGGER aeroplane_is_not_changed BEFORE UPDATE ON aeroplane
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER aeroplane_is_not_deleted BEFORE DELETE ON aeroplane
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;

CREATE TABLE strip (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'strip' CHECK (entry_kind = 'strip'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    file TEXT NOT NULL CHECK (file <> ''),
    sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
    files TEXT NOT NULL CHECK (json_valid(files)),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TRIGGER strip_is_not_changed BEFORE UPDATE ON strip
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER strip_is_not_deleted BEFORE DELETE ON strip
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;

CREATE TABLE day (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'day' CHECK (entry_kind = 'day'),
    day TEXT NOT NULL CHECK (day <> ''),
    strip TEXT CHECK (strip <> ''),
    file TEXT NOT NULL CHECK (file <> ''),
    sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
    files TEXT NOT NULL CHECK (json_valid(files)),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TRIGGER day_is_not_changed BEFORE UPDATE ON day
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER day_is_not_deleted BEFORE DELETE ON day
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;

CREATE TABLE flight (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'flight' CHECK (entry_kind = 'flight'),
    flight TEXT NOT NULL CHECK (flight <> ''),
    strip TEXT CHECK (strip <> ''),
    tail TEXT CHECK (tail <> ''),
    file TEXT NOT NULL CHECK (file <> ''),
    sha256 TEXT NOT NULL CHECK (length(sha256) = 64),
    files TEXT NOT NULL CHECK (json_valid(files)),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TRIGGER flight_is_not_changed BEFORE UPDATE ON flight
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER flight_is_not_deleted BEFORE DELETE ON flight
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
