CREATE TABLE decisions (
  session INTEGER NOT NULL REFERENCES sessions (id),
  number INTEGER NOT NULL,
  decided_at INTEGER NOT NULL,
  decided_by TEXT NOT NULL,
  action TEXT NOT NULL,
  patient_id TEXT,
  scheme TEXT,
  reason BLOB NOT NULL,
  PRIMARY KEY (session, number)) WITHOUT ROWID;
