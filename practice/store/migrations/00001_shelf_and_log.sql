-- Times are milliseconds since 1970 in UTC; zone is the offset in seconds of the
-- time zone that a time was given in, because days are those of the player.

-- +goose Up
CREATE TABLE item (
  id      INTEGER PRIMARY KEY,
  owner   TEXT NOT NULL,
  uid     TEXT NOT NULL,
  kind    TEXT NOT NULL,
  title   TEXT NOT NULL,
  spec    TEXT NOT NULL, -- field: value lines
  tags    TEXT NOT NULL, -- words with spaces between them
  note    TEXT NOT NULL,
  origin  TEXT NOT NULL,
  scope   TEXT NOT NULL,
  target  REAL NOT NULL,
  made    INTEGER NOT NULL,
  zone    INTEGER NOT NULL,
  dropped INTEGER, -- when it was taken off the shelf
  UNIQUE (owner, uid)
);

-- A unit with its standing: what its runs add up to.
CREATE TABLE unit (
  id         INTEGER PRIMARY KEY,
  owner      TEXT NOT NULL,
  item       INTEGER NOT NULL REFERENCES item (id),
  position   INTEGER NOT NULL, -- within the item's scope; −1 outside of it
  key        TEXT NOT NULL,
  fret       INTEGER NOT NULL,
  tempo      REAL NOT NULL DEFAULT 0,
  in_a_row   INTEGER NOT NULL DEFAULT 0,
  rising     INTEGER NOT NULL DEFAULT 0,
  changes    INTEGER NOT NULL DEFAULT 0,
  reversals  INTEGER NOT NULL DEFAULT 0,
  fastest    REAL NOT NULL DEFAULT 0,
  stability  REAL NOT NULL DEFAULT 0,
  difficulty REAL NOT NULL DEFAULT 0,
  reps       INTEGER NOT NULL DEFAULT 0,
  lapses     INTEGER NOT NULL DEFAULT 0,
  last       INTEGER,
  due        INTEGER,
  runs       INTEGER NOT NULL DEFAULT 0,
  clean      INTEGER NOT NULL DEFAULT 0,
  seconds    REAL NOT NULL DEFAULT 0,
  latest     INTEGER NOT NULL DEFAULT 0,
  played     INTEGER,
  zone       INTEGER NOT NULL DEFAULT 0,
  UNIQUE (item, key, fret)
);
CREATE INDEX unit_of_owner ON unit (owner, item, position);

CREATE TABLE run (
  id      INTEGER PRIMARY KEY,
  owner   TEXT NOT NULL,
  uid     TEXT NOT NULL,
  item    INTEGER NOT NULL REFERENCES item (id),
  unit    INTEGER NOT NULL REFERENCES unit (id),
  at      INTEGER NOT NULL,
  zone    INTEGER NOT NULL,
  seconds REAL NOT NULL,
  tempo   REAL NOT NULL,
  went    INTEGER NOT NULL,
  marks   TEXT, -- JSON
  take    TEXT NOT NULL,
  struck  INTEGER NOT NULL DEFAULT 0,
  UNIQUE (owner, uid)
);
CREATE INDEX run_of_item ON run (item, at, id);
CREATE INDEX run_of_owner ON run (owner, at, id);

-- Sums over the runs that are not struck out.
CREATE TABLE move (
  owner  TEXT NOT NULL,
  kind   TEXT NOT NULL,
  value  TEXT NOT NULL,
  tries  INTEGER NOT NULL,
  misses INTEGER NOT NULL,
  PRIMARY KEY (owner, kind, value)
) WITHOUT ROWID;
CREATE TABLE day (
  owner   TEXT NOT NULL,
  day     TEXT NOT NULL,
  seconds REAL NOT NULL,
  runs    INTEGER NOT NULL,
  PRIMARY KEY (owner, day)
) WITHOUT ROWID;

CREATE VIRTUAL TABLE item_words USING fts5 (title, tags, note, content = 'item', content_rowid = 'id', tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3');
-- +goose StatementBegin
CREATE TRIGGER item_added AFTER INSERT ON item BEGIN
  INSERT INTO item_words (rowid, title, tags, note) VALUES (new.id, new.title, new.tags, new.note);
END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER item_changed AFTER UPDATE OF title, tags, note ON item BEGIN
  INSERT INTO item_words (item_words, rowid, title, tags, note) VALUES ('delete', old.id, old.title, old.tags, old.note);
  INSERT INTO item_words (rowid, title, tags, note) VALUES (new.id, new.title, new.tags, new.note);
END;
-- +goose StatementEnd
