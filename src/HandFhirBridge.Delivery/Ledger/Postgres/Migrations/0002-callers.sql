-- Who was signed in when a person decided; what is there was decided on the command line, or before sign-ins were kept.
ALTER TABLE decisions ADD COLUMN caller TEXT;
