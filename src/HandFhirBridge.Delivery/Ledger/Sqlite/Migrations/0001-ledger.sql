CREATE TABLE sessions (
  id INTEGER PRIMARY KEY,
  site TEXT NOT NULL,
  session_id TEXT NOT NULL,
  revision INTEGER NOT NULL CHECK (revision > 0),
  content_hash TEXT NOT NULL,
  target TEXT NOT NULL,
  patient_key TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('accepted', 'sending', 'delivered', 'held', 'failed', 'superseded')),
  accepted_at INTEGER NOT NULL,
  next_attempt_at INTEGER,
  attempts INTEGER NOT NULL DEFAULT 0,
  in_doubt INTEGER NOT NULL DEFAULT 0,
  lease_owner TEXT,
  leased_at INTEGER,
  lease_until INTEGER,
  problem_code TEXT,
  reason TEXT,
  patient_id TEXT,
  patient_version TEXT,
  report_id TEXT,
  delivered_at INTEGER,
  UNIQUE (site, session_id, revision));
CREATE INDEX sessions_due ON sessions (next_attempt_at, id) WHERE state = 'accepted';
CREATE INDEX sessions_sending ON sessions (patient_key, lease_until) WHERE state = 'sending';
CREATE INDEX sessions_unsent ON sessions (accepted_at) WHERE state IN ('accepted', 'sending', 'held', 'failed');
CREATE INDEX sessions_state ON sessions (state);
CREATE TABLE payloads (
  session INTEGER PRIMARY KEY REFERENCES sessions (id),
  scheme TEXT,
  document BLOB NOT NULL,
  bundle BLOB NOT NULL,
  patient BLOB NOT NULL);
CREATE TABLE attempts (
  session INTEGER NOT NULL REFERENCES sessions (id),
  number INTEGER NOT NULL,
  started_at INTEGER NOT NULL,
  duration_ms INTEGER NOT NULL,
  target TEXT NOT NULL,
  rung INTEGER,
  status TEXT NOT NULL,
  http_status INTEGER,
  problem_code TEXT,
  scheme TEXT,
  answer BLOB,
  PRIMARY KEY (session, number)) WITHOUT ROWID;
