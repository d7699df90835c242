-- The kinds of an entry stand in a check, which cannot be altered: the table is
-- made anew. References to it are looked at again when all is done.
CREATE TABLE entry_5 (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    kind TEXT NOT NULL CHECK (kind IN (
        'movement', 'inspection', 'damage', 'repair', 'closure', 'assessment', 'equipment',
        'survey', 'aeroplane', 'strip', 'day', 'flight', 'picture', 'withdrawal')),
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
INSERT INTO entry_5 SELECT id, kind, recorded_at, recorded_by, supersedes, why, digest, mark
    FROM entry ORDER BY id;
DROP TRIGGER entry_is_not_deleted;
DROP TABLE entry;
ALTER TABLE entry_5 RENAME TO entry;
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

-- Pictures themselves, each once, by the SHA-256 of its bytes.
CREATE TABLE picture_content (
    sha256 TEXT PRIMARY KEY CHECK (length(sha256) = 64),
    content BLOB NOT NULL CHECK (length(content) BETWEEN 1 AND 8388608)
) STRICT;
CREATE TRIGGER picture_content_is_not_changed BEFORE UPDATE ON picture_content
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER picture_content_is_not_deleted BEFORE DELETE ON picture_content
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;

CREATE TABLE picture (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'picture' CHECK (entry_kind = 'picture'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    of_entry INTEGER NOT NULL REFERENCES entry (id) CHECK (of_entry < id),
    shown TEXT NOT NULL CHECK (shown <> ''),
    file TEXT CHECK (file <> ''),
    format TEXT NOT NULL CHECK (format IN ('jpeg', 'png', 'webp')),
    width_px INTEGER NOT NULL CHECK (width_px > 0),
    height_px INTEGER NOT NULL CHECK (height_px > 0),
    bytes INTEGER NOT NULL CHECK (bytes BETWEEN 1 AND 8388608),
    sha256 TEXT NOT NULL REFERENCES picture_content (sha256),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE INDEX picture_of ON picture (of_entry);
CREATE TRIGGER picture_is_not_changed BEFORE UPDATE ON picture
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER picture_is_not_deleted BEFORE DELETE ON picture
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
