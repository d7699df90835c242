-- A book as layout 1 wrote it.
PRAGMA application_id = 1213219403;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE assessment (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'assessment' CHECK (entry_kind = 'assessment'),
    flight TEXT NOT NULL CHECK (flight <> ''),
    strip TEXT NOT NULL CHECK (strip <> ''),
    tail TEXT NOT NULL CHECK (tail <> ''),
    at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??*Z'),
    verdict TEXT NOT NULL CHECK (verdict IN ('pass', 'conditional', 'unproven', 'fail')),
    identifier TEXT NOT NULL CHECK (identifier <> ''),
    json TEXT NOT NULL CHECK (json_valid(json)),
    program TEXT NOT NULL CHECK (program <> ''),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TABLE closure (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'closure' CHECK (entry_kind = 'closure'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    action TEXT NOT NULL CHECK (action IN ('closed', 'reopened')),
    from_time TEXT NOT NULL CHECK (from_time GLOB '????-??-??T??:??:??*Z'),
    reason TEXT NOT NULL CHECK (reason <> ''),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TABLE damage (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'damage' CHECK (entry_kind = 'damage'),
    tail TEXT NOT NULL CHECK (tail <> ''),
    strip TEXT NOT NULL CHECK (strip <> ''),
    date TEXT NOT NULL CHECK (date GLOB '????-??-??'),
    zone TEXT NOT NULL CHECK (zone <> ''),
    phase TEXT NOT NULL CHECK (phase IN ('landing', 'take-off', 'taxi', 'not known')),
    size_m REAL CHECK (size_m >= 0),
    stone_m REAL CHECK (stone_m >= 0),
    remarks TEXT,
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TABLE entry (
    id INTEGER PRIMARY KEY CHECK (id > 0),
    kind TEXT NOT NULL CHECK (kind IN (
        'movement', 'inspection', 'damage', 'repair', 'closure', 'assessment', 'withdrawal')),
    recorded_at TEXT NOT NULL CHECK (recorded_at GLOB '????-??-??T??:??:??*Z'),
    recorded_by TEXT NOT NULL CHECK (recorded_by <> ''),
    supersedes INTEGER UNIQUE REFERENCES entry (id) CHECK (supersedes < id),
    why TEXT CHECK (why <> ''),
    digest TEXT NOT NULL CHECK (length(digest) = 64),
    CHECK ((supersedes IS NULL) = (why IS NULL)),
    CHECK (kind <> 'withdrawal' OR supersedes IS NOT NULL),
    UNIQUE (id, kind)
) STRICT;
INSERT INTO "entry" VALUES(1,'movement','2026-11-26T03:40:18.95373688Z','A. Keeper',NULL,NULL,'3d6ec81004dac7dfbcc43c6730abe97be48b5d381a652809f3984a11471dc7da');
INSERT INTO "entry" VALUES(2,'inspection','2026-11-26T03:40:18.982076274Z','A. Keeper',NULL,NULL,'e979c2cfcc01de4210a39e9b1ef546eea8ff852ebd3fbf8b521b77cf0061bfdf');
INSERT INTO "entry" VALUES(3,'movement','2026-11-26T03:40:19.007721645Z','A. Keeper',1,'load sheet was wrong','d17fd23e1da75774a2ee49e5e6a641cafeb4c29ebea7188cadacfed12c137820');
CREATE TABLE inspection (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'inspection' CHECK (entry_kind = 'inspection'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??*Z'),
    rut_m REAL NOT NULL CHECK (rut_m >= 0),
    rut_station_m REAL CHECK (rut_station_m >= 0),
    rut_lane TEXT,
    loose_m REAL CHECK (loose_m >= 0),
    loose_station_m REAL CHECK (loose_station_m >= 0),
    water_m REAL NOT NULL CHECK (water_m >= 0),
    water_station_m REAL CHECK (water_station_m >= 0),
    remarks TEXT,
    CHECK (rut_m = 0 OR (rut_station_m IS NOT NULL AND rut_lane IS NOT NULL)),
    CHECK (loose_m IS NULL OR loose_m = 0 OR loose_station_m IS NOT NULL),
    CHECK (water_m = 0 OR water_station_m IS NOT NULL),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
INSERT INTO "inspection" VALUES(2,'inspection','North','2026-06-18T09:00:00Z',0.012,640.0,'left main',NULL,NULL,0.0,NULL,NULL);
CREATE TABLE movement (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'movement' CHECK (entry_kind = 'movement'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    tail TEXT NOT NULL CHECK (tail <> ''),
    kind TEXT NOT NULL CHECK (kind IN ('landing', 'take-off')),
    at TEXT NOT NULL CHECK (at GLOB '????-??-??T??:??:??*Z'),
    mass_kg REAL NOT NULL CHECK (mass_kg > 0),
    pressure_pa REAL CHECK (pressure_pa > 0),
    direction TEXT,
    remarks TEXT,
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
INSERT INTO "movement" VALUES(1,'movement','North','101','landing','2026-06-18T15:00:00Z',39600.0,6.89475729316836106596e+05,NULL,NULL);
INSERT INTO "movement" VALUES(3,'movement','North','101','landing','2026-06-18T15:00:00Z',39900.0,6.89475729316836106596e+05,NULL,NULL);
CREATE TABLE repair (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'repair' CHECK (entry_kind = 'repair'),
    strip TEXT NOT NULL CHECK (strip <> ''),
    date TEXT NOT NULL CHECK (date GLOB '????-??-??'),
    from_m REAL NOT NULL CHECK (from_m >= 0),
    to_m REAL NOT NULL CHECK (to_m >= from_m),
    what TEXT NOT NULL CHECK (what <> ''),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
CREATE TABLE withdrawal (
    id INTEGER PRIMARY KEY,
    entry_kind TEXT NOT NULL DEFAULT 'withdrawal' CHECK (entry_kind = 'withdrawal'),
    FOREIGN KEY (id, entry_kind) REFERENCES entry (id, kind)
) STRICT;
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
CREATE TRIGGER movement_is_not_changed BEFORE UPDATE ON movement
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER movement_is_not_deleted BEFORE DELETE ON movement
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER inspection_is_not_changed BEFORE UPDATE ON inspection
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER inspection_is_not_deleted BEFORE DELETE ON inspection
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER damage_is_not_changed BEFORE UPDATE ON damage
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER damage_is_not_deleted BEFORE DELETE ON damage
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER repair_is_not_changed BEFORE UPDATE ON repair
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER repair_is_not_deleted BEFORE DELETE ON repair
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER closure_is_not_changed BEFORE UPDATE ON closure
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER closure_is_not_deleted BEFORE DELETE ON closure
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER assessment_is_not_changed BEFORE UPDATE ON assessment
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER assessment_is_not_deleted BEFORE DELETE ON assessment
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
CREATE TRIGGER withdrawal_is_not_changed BEFORE UPDATE ON withdrawal
BEGIN SELECT RAISE(ABORT, 'nothing is overwritten'); END;
CREATE TRIGGER withdrawal_is_not_deleted BEFORE DELETE ON withdrawal
BEGIN SELECT RAISE(ABORT, 'nothing is deleted'); END;
COMMIT;
