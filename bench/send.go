package bench

import (
	"bytes"
	"compress/gzip"
	"errors"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"

	"heddle/audio"
	"heddle/pitch"
)

// worthPacking is the size in bytes from which an answer is compressed.
const worthPacking = 1400 // one packet's worth

var packers = sync.Pool{New: func() any {
	w, _ := gzip.NewWriterLevel(nil, gzip.BestSpeed) // the level is a valid one
	return w
}}

// send sends a body, compressed where that helps. On this machine itself,
// compressing takes longer than sending.
func send(w http.ResponseWriter, r *http.Request, status int, body []byte) {
	if len(body) >= worthPacking && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") && !fromHere(r) {
		var packed bytes.Buffer
		packer := packers.Get().(*gzip.Writer)
		packer.Reset(&packed)
		_, err := packer.Write(body)
		if err = errors.Join(err, packer.Close()); err == nil {
			w.Header().Set("Content-Encoding", "gzip")
			body = packed.Bytes()
		}
		packers.Put(packer)
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(status)
	w.Write(body)
}

// fromHere reports whether the request comes from this machine.
func fromHere(r *http.Request) bool {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	ip := net.ParseIP(host)
	return err == nil && ip != nil && ip.IsLoopback()
}

// refuse answers a request that can't be served, in one line.
func (b *Bench) refuse(w http.ResponseWriter, r *http.Request, err error) {
	status := http.StatusInternalServerError
	var input *pitch.InputError
	switch {
	case errors.As(err, &input):
		status = http.StatusBadRequest
	case errors.Is(err, audio.ErrNoFFmpeg):
		status = http.StatusNotImplemented
	case errors.Is(err, errBusy):
		status = http.StatusServiceUnavailable
		w.Header().Set("Retry-After", "2")
	case r.Context().Err() != nil:
		return // nobody is listening any more
	}
	http.Error(w, err.Error(), status)
}

func (b *Bench) serveNothing(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		allow := "GET, HEAD"
		if r.URL.Path == "/take" || r.URL.Path == "/takes" {
			allow += ", POST"
		}
		w.Header().Set("Allow", allow)
		http.Error(w, "pages are only read here", http.StatusMethodNotAllowed)
		return
	}
	b.write(w, r, "missing.html", http.StatusNotFound, &benchPage{Title: "Not here"})
}
