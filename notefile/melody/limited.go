package melody

import "io"

// A Limited reader returns Past once more than Left bytes are read from it.
type Limited struct {
	From io.Reader
	Left int
	Past error
}

// Read reads on, up to the limit.
func (l *Limited) Read(p []byte) (int, error) {
	if l.Left <= 0 {
		return 0, l.Past
	}
	n, err := l.From.Read(p[:min(len(p), l.Left)])
	l.Left -= n
	return n, err
}
