package store

// Exec runs a statement, for tests that need a file as only another program would leave it.
func Exec(s *SQLite, statement string) error {
	_, err := s.db.Exec(statement)
	return err
}
