package musicxml

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// charset decodes the encodings that a file may declare. UTF-16 has already been
// decoded when the declaration is read.
func charset(label string, input io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "utf-8", "utf8", "utf-16", "utf-16le", "utf-16be", "us-ascii", "ascii":
		return input, nil
	case "iso-8859-1", "latin1":
		return charmap.ISO8859_1.NewDecoder().Reader(input), nil
	case "windows-1252":
		return charmap.Windows1252.NewDecoder().Reader(input), nil
	case "iso-8859-15":
		return charmap.ISO8859_15.NewDecoder().Reader(input), nil
	}
	return nil, fmt.Errorf("encoding %q, want UTF-8, UTF-16 or ISO-8859-1", label)
}

// The beginnings of XML files in UTF-16, with a byte order mark and without, and
// the byte order mark of UTF-8.
var (
	bigEndian    = []string{"\xFE\xFF", "\x00<"}
	littleEndian = []string{"\xFF\xFE", "<\x00"}
	utf8Mark     = []byte("\xEF\xBB\xBF")
)

// decodeUTF removes a byte order mark and turns UTF-16 into UTF-8.
func decodeUTF(r *bufio.Reader) (io.Reader, error) {
	head, err := r.Peek(3)
	if err != nil && err != io.EOF {
		return nil, err
	}
	switch {
	case bytes.HasPrefix(head, utf8Mark):
		_, err = r.Discard(len(utf8Mark))
		return r, err
	case hasPrefix(head, bigEndian):
		return unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder().Reader(r), nil
	case hasPrefix(head, littleEndian):
		return unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder().Reader(r), nil
	}
	return r, nil
}

func hasPrefix(head []byte, prefixes []string) bool {
	for _, p := range prefixes {
		if bytes.HasPrefix(head, []byte(p)) {
			return true
		}
	}
	return false
}

// Looks reports whether a file begins as XML does, in any encoding that is read.
func Looks(head []byte) bool {
	text := bytes.TrimLeft(bytes.TrimPrefix(head, utf8Mark), " \t\r\n")
	return bytes.HasPrefix(text, []byte("<")) || hasPrefix(head, bigEndian) || hasPrefix(head, littleEndian)
}
