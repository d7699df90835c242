-- Who first wrote down what was taken over from another book or a file, and when.
ALTER TABLE entry ADD COLUMN first_by TEXT CHECK (first_by <> '');
ALTER TABLE entry ADD COLUMN first_at TEXT CHECK (first_at GLOB '????-??-??T??:??:??*Z')
    CHECK (first_at IS NULL OR first_by IS NOT NULL);
