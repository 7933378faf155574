package site

import (
	"bytes"
	"compress/gzip"
	"errors"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"

	"heddle/audio"
	"heddle/pitch"
)

// worthPacking is the size in bytes from which an answer is compressed.
const worthPacking = 1400 // one packet's worth

var packers = sync.Pool{New: func() any {
	w, _ := gzip.NewWriterLevel(nil, gzip.BestSpeed) // the level is a valid one
	return w
}}

// Send sends a body, compressed where that helps. On this machine itself,
// compressing takes longer than sending. Unless the caller has said otherwise, no
// cache keeps it.
func Send(w http.ResponseWriter, r *http.Request, status int, kind string, body []byte) {
	w.Header().Set("Content-Type", kind)
	if w.Header().Get("Cache-Control") == "" {
		w.Header().Set("Cache-Control", "no-store")
	}
	w.Header().Add("Vary", "Accept-Encoding")
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

// Refuse answers a request that can't be served, in one line.
func Refuse(w http.ResponseWriter, r *http.Request, err error) {
	status := http.StatusInternalServerError
	var input *pitch.InputError
	switch {
	case errors.As(err, &input):
		status = http.StatusBadRequest
	case errors.Is(err, audio.ErrNoFFmpeg):
		status = http.StatusNotImplemented
	case errors.Is(err, ErrBusy):
		status = http.StatusServiceUnavailable
		w.Header().Set("Retry-After", "2")
	case r.Context().Err() != nil:
		return // nobody is listening any more
	}
	http.Error(w, err.Error(), status)
}

// stallTime is how long a client may take to accept the next part of a file.
const stallTime = 30 * time.Second

// A SteadyWriter moves the write deadline with every part that is sent, so that
// a slow client gets a whole file and a stalled one is dropped.
type SteadyWriter struct{ http.ResponseWriter }

// Write sends a part.
func (w SteadyWriter) Write(p []byte) (int, error) {
	// Where the deadline can't be moved, the server's own holds.
	_ = http.NewResponseController(w.ResponseWriter).SetWriteDeadline(time.Now().Add(stallTime))
	return w.ResponseWriter.Write(p)
}
