-- What the lease promises, kept by the database itself: never two sessions of one patient under way.
DROP INDEX sessions_sending;
CREATE UNIQUE INDEX sessions_sending ON sessions (patient_key) WHERE state = 'sending';
