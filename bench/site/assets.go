package site

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"

	"heddle/score/surface"
)

// An asset is a file that pages refer to.
type asset struct {
	kind    string
	body    []byte
	packed  func() []byte // gzipped when first asked for, so that the start is quick; returns nil where that does not help
	lasting bool          // its name changes with its content
}

// assets are the files that pages load. The address of a built one holds a hash
// of its content, so that browsers may keep it for good.
type assets struct {
	addresses map[string]string // by the name of the built file
	files     map[string]asset
}

var assetKinds = map[string]string{
	".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8", ".svg": "image/svg+xml", ".woff2": "font/woff2",
	".txt": "text/plain; charset=utf-8",
}

// loadAssets reads the built files and gives each its lasting name.
func loadAssets(files fs.FS) (*assets, error) {
	a := &assets{map[string]string{}, map[string]asset{}}
	built, err := fs.Sub(files, "built")
	if err != nil {
		return nil, err
	}
	if err := a.add(surface.WebFonts(), false); err != nil {
		return nil, err
	}
	return a, a.add(built, true)
}

// add takes in a folder of files; with hashed, under names that last.
func (a *assets) add(folder fs.FS, hashed bool) error {
	entries, err := fs.ReadDir(folder, ".")
	if err != nil {
		return err
	}
	for _, entry := range entries {
		body, err := fs.ReadFile(folder, entry.Name())
		if err != nil {
			return err
		}
		ending := path.Ext(entry.Name())
		name := entry.Name()
		if hashed {
			sum := sha256.Sum256(body)
			name = strings.TrimSuffix(name, ending) + "-" + hex.EncodeToString(sum[:6]) + ending
		}
		a.files[name] = asset{assetKinds[ending], body, sync.OnceValue(func() []byte { return packed(body, ending) }), hashed}
		a.addresses[entry.Name()] = "/assets/" + name
	}
	return nil
}

// packed compresses text; it returns nil for fonts.
func packed(body []byte, ending string) []byte {
	if ending == ".woff2" {
		return nil
	}
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // the level is a valid one
	w.Write(body)                                         // a buffer takes everything
	if w.Close() != nil {
		return nil
	}
	return b.Bytes()
}

// ServeAsset answers with the file that the path names.
func (s *Site) ServeAsset(w http.ResponseWriter, r *http.Request) {
	file, ok := s.assets.files[r.PathValue("name")]
	if !ok {
		s.Missing(w, r)
		return
	}
	w.Header().Set("Content-Type", file.kind)
	w.Header().Set("Cache-Control", "public, max-age=86400")
	if file.lasting {
		w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	}
	w.Header().Set("Vary", "Accept-Encoding")
	body := file.body
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		if packed := file.packed(); packed != nil {
			w.Header().Set("Content-Encoding", "gzip")
			body = packed
		}
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.Write(body)
}
