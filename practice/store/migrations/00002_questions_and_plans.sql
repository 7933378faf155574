-- +goose Up
CREATE TABLE topic (
  id         INTEGER PRIMARY KEY,
  owner      TEXT NOT NULL,
  kind       TEXT NOT NULL,
  pair       TEXT NOT NULL,
  region     TEXT NOT NULL,
  stability  REAL NOT NULL,
  difficulty REAL NOT NULL,
  reps       INTEGER NOT NULL,
  lapses     INTEGER NOT NULL,
  last       INTEGER,
  due        INTEGER,
  asked      INTEGER NOT NULL,
  correct    INTEGER NOT NULL,
  known      INTEGER NOT NULL,
  seconds    REAL NOT NULL,
  UNIQUE (owner, kind, pair, region)
);

CREATE TABLE answer (
  id      INTEGER PRIMARY KEY,
  owner   TEXT NOT NULL,
  topic   INTEGER NOT NULL REFERENCES topic (id),
  at      INTEGER NOT NULL,
  zone    INTEGER NOT NULL,
  string  INTEGER NOT NULL,
  fret    INTEGER NOT NULL,
  correct INTEGER NOT NULL,
  seconds REAL NOT NULL
);
CREATE INDEX answer_of_owner ON answer (owner, topic);

-- The plan that was begun on a day, so that it can be left and resumed.
CREATE TABLE plan (
  owner TEXT NOT NULL,
  day   TEXT NOT NULL,
  plan  TEXT NOT NULL, -- JSON
  done  INTEGER NOT NULL,
  PRIMARY KEY (owner, day)
) WITHOUT ROWID;
