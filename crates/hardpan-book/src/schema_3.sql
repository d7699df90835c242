-- The mark that whoever records gave an entry, so that the same one sent twice
-- stands once.
ALTER TABLE entry ADD COLUMN mark TEXT CHECK (length(mark) BETWEEN 8 AND 64);
CREATE UNIQUE INDEX entry_mark ON entry (mark) WHERE mark IS NOT NULL;

-- The stretch that a movement rolled over.
ALTER TABLE movement ADD COLUMN rolled_from_m REAL CHECK (rolled_from_m >= 0);
ALTER TABLE movement ADD COLUMN rolled_to_m REAL CHECK (rolled_to_m >= 0);
