package musicxml

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"

	"heddle/notefile/melody"
)

const (
	// maxUnpacked is how many bytes a packed score may unpack to.
	maxUnpacked = 32 << 20

	// maxPacked is how many files an archive may hold, so that its directory
	// takes little memory. Real ones hold a score, a container and a few
	// pictures.
	maxPacked = 1000

	// directoryEntry begins every entry of a zip directory.
	directoryEntry = "PK\x01\x02"
)

// ReadCompressed reads a line from a compressed MusicXML file: a zip archive
// whose META-INF/container.xml names the score (MusicXML 4.0, container).
func ReadCompressed(content []byte, part string) (melody.Import, error) {
	score, err := unpack(content)
	if err != nil {
		return melody.Import{}, fmt.Errorf("compressed MusicXML: %w", err)
	}
	defer score.Close()
	return Read(atMost(maxUnpacked, score), part)
}

func unpack(content []byte) (io.ReadCloser, error) {
	if bytes.Count(content, []byte(directoryEntry)) > maxPacked {
		return nil, fmt.Errorf("more than %d files in the archive", maxPacked)
	}
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return nil, err
	}
	name, err := scoreName(archive)
	if err != nil {
		return nil, err
	}
	return openIn(archive, name)
}

// scoreName returns the path of the score in the archive: the first root file
// of the container or, without a container, the first file with the name of a
// score.
func scoreName(archive *zip.Reader) (string, error) {
	const container = "META-INF/container.xml"
	if file, err := openIn(archive, container); err == nil {
		defer file.Close()
		guard, err := newGuard(atMost(maxText, file))
		if err != nil {
			return "", fmt.Errorf("%s: %w", container, err)
		}
		for {
			token, err := guard.Token()
			if err != nil {
				return "", fmt.Errorf("%s names no score: %w", container, err)
			}
			if e, ok := token.(xml.StartElement); ok && e.Name.Local == "rootfile" {
				return attribute(e, "full-path"), nil
			}
		}
	}
	for _, f := range archive.File {
		if strings.HasSuffix(f.Name, ".xml") || strings.HasSuffix(f.Name, ".musicxml") {
			return f.Name, nil
		}
	}
	return "", errors.New("no score in the archive")
}

func openIn(archive *zip.Reader, name string) (io.ReadCloser, error) {
	for _, f := range archive.File {
		if f.Name == name {
			return f.Open()
		}
	}
	return nil, fmt.Errorf("no file %q in the archive", melody.CleanText(name))
}

// atMost returns a reader of a packed file that may unpack to so many bytes.
func atMost(bytes int, file io.Reader) io.Reader {
	return &melody.Limited{From: file, Left: bytes, Past: fmt.Errorf("unpacks to more than %d bytes", bytes)}
}
