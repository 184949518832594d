CREATE TABLE sessions (
  id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  site TEXT NOT NULL,
  session_id TEXT NOT NULL,
  revision INTEGER NOT NULL CHECK (revision > 0),
  content_hash TEXT NOT NULL,
  target TEXT NOT NULL,
  patient_key TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('accepted', 'sending', 'delivered', 'held', 'failed', 'superseded')),
  accepted_at BIGINT NOT NULL,
  next_attempt_at BIGINT,
  attempts INTEGER NOT NULL DEFAULT 0,
  in_doubt BOOLEAN NOT NULL DEFAULT FALSE,
  lease_owner TEXT,
  leased_at BIGINT,
  lease_until BIGINT,
  problem_code TEXT,
  reason TEXT,
  patient_id TEXT,
  patient_version TEXT,
  report_id TEXT,
  delivered_at BIGINT,
  UNIQUE (site, session_id, revision));

-- The queue is these two: a finished session is in neither, so history does not slow the lease down.
CREATE INDEX sessions_due ON sessions (next_attempt_at, id) WHERE state = 'accepted';
-- What the lease promises, kept by the database itself: never two sessions of one patient under way.
CREATE UNIQUE INDEX sessions_sending ON sessions (patient_key) WHERE state = 'sending';
CREATE INDEX sessions_unsent ON sessions (accepted_at) WHERE state IN ('accepted', 'sending', 'held', 'failed');
CREATE INDEX sessions_state ON sessions (state);

CREATE TABLE payloads (
  session BIGINT PRIMARY KEY REFERENCES sessions (id),
  scheme TEXT,
  document BYTEA NOT NULL,
  bundle BYTEA NOT NULL,
  patient BYTEA NOT NULL);

CREATE TABLE attempts (
  session BIGINT NOT NULL REFERENCES sessions (id),
  number INTEGER NOT NULL,
  started_at BIGINT NOT NULL,
  duration_ms BIGINT NOT NULL,
  target TEXT NOT NULL,
  rung INTEGER,
  status TEXT NOT NULL,
  http_status INTEGER,
  problem_code TEXT,
  scheme TEXT,
  answer BYTEA,
  PRIMARY KEY (session, number));

CREATE TABLE decisions (
  session BIGINT NOT NULL REFERENCES sessions (id),
  number INTEGER NOT NULL,
  decided_at BIGINT NOT NULL,
  decided_by TEXT NOT NULL,
  action TEXT NOT NULL,
  patient_id TEXT,
  scheme TEXT,
  reason BYTEA NOT NULL,
  PRIMARY KEY (session, number));

-- One sealed sample a scheme: tells an instance with another key ring apart before it accepts anything.
CREATE TABLE seals (
  scheme TEXT PRIMARY KEY,
  sample BYTEA NOT NULL);

-- Every session leaves three dead index entries behind within seconds; the default waits for a fifth of all history.
ALTER TABLE sessions SET (autovacuum_vacuum_scale_factor = 0, autovacuum_vacuum_threshold = 2000);
