package musicxml

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// charset accepts the encodings that a file may declare. UTF-16 has already been
// decoded when the declaration is read.
func charset(label string, input io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "utf-8", "utf8", "utf-16", "utf-16le", "utf-16be", "us-ascii", "ascii":
		return input, nil
	case "iso-8859-1", "latin1", "windows-1252", "iso-8859-15":
		return &latin1{text: bufio.NewReader(input)}, nil
	}
	return nil, fmt.Errorf("encoding %q, want UTF-8, UTF-16 or ISO-8859-1", label)
}

// A latin1 turns Latin-1 into UTF-8.
type latin1 struct {
	text *bufio.Reader
	left []byte
}

// Read reads the text below, a character at a time.
func (l *latin1) Read(b []byte) (int, error) {
	if len(l.left) == 0 {
		c, err := l.text.ReadByte()
		if err != nil {
			return 0, err
		}
		l.left = utf8.AppendRune(nil, rune(c))
	}
	n := copy(b, l.left)
	l.left = l.left[n:]
	return n, nil
}

// decodeUTF takes off a byte order mark and turns UTF-16 into UTF-8.
func decodeUTF(r *bufio.Reader) (io.Reader, error) {
	head, err := r.Peek(3)
	if err != nil && err != io.EOF {
		return nil, err
	}
	switch {
	case bytes.HasPrefix(head, []byte("\xEF\xBB\xBF")):
		_, err = r.Discard(3)
		return r, err
	case bytes.HasPrefix(head, []byte("\xFE\xFF")), bytes.HasPrefix(head, []byte("\x00<")):
		return &utf16Reader{text: r, high: 0}, nil
	case bytes.HasPrefix(head, []byte("\xFF\xFE")), bytes.HasPrefix(head, []byte("<\x00")):
		return &utf16Reader{text: r, high: 1}, nil
	}
	return r, nil
}

// A utf16Reader turns UTF-16 into UTF-8.
type utf16Reader struct {
	text *bufio.Reader
	high int // which byte of a pair is the high one
	left []byte
}

// Read reads the text below, a character at a time.
func (u *utf16Reader) Read(b []byte) (int, error) {
	for len(u.left) == 0 {
		r, err := u.unit()
		if err != nil {
			return 0, err
		}
		if utf16.IsSurrogate(r) {
			low, err := u.unit()
			if err != nil {
				return 0, io.ErrUnexpectedEOF
			}
			r = utf16.DecodeRune(r, low)
		}
		const byteOrderMark = 0xFEFF
		if r != byteOrderMark {
			u.left = utf8.AppendRune(u.left[:0], r)
		}
	}
	n := copy(b, u.left)
	u.left = u.left[n:]
	return n, nil
}

// unit reads one pair of bytes.
func (u *utf16Reader) unit() (rune, error) {
	var pair [2]byte
	if _, err := io.ReadFull(u.text, pair[:]); err != nil {
		return 0, err
	}
	return rune(pair[u.high])<<8 | rune(pair[1-u.high]), nil
}

// Looks reports whether a file begins as XML does, in any encoding that is read.
func Looks(content []byte) bool {
	for _, mark := range []string{"\xFE\xFF", "\xFF\xFE", "\x00<", "<\x00"} {
		if bytes.HasPrefix(content, []byte(mark)) {
			return true
		}
	}
	content = bytes.TrimPrefix(content, []byte("\xEF\xBB\xBF"))
	return bytes.HasPrefix(bytes.TrimLeft(content, " \t\r\n"), []byte("<"))
}
