package bench

import (
	"embed"
	"net/http"
	"time"

	"heddle/bench/practising"
	"heddle/bench/site"
	"heddle/bench/take"
	"heddle/bench/takes"
	"heddle/deliver"
)

// The scripts and styles in the folder built are made from scripts and styles
// by `go generate ./bench`; a test compares them with their source.
//
//go:generate go run ./bundle

//go:embed pages/*.html built/*
var files embed.FS

// A Bench serves the pages. Make one with New.
type Bench struct {
	site   *site.Site
	sounds *soundShelf
	takes  *take.Pages
	shelf  *practising.Pages
	idle   func()
}

// Options say how a bench is set up. The zero Options are for one player on
// this machine.
type Options struct {
	// SoundBytes bounds how much rendered sound is kept at hand; 0 for 48 MiB,
	// about nine parts of half a minute each: the browser keeps what a page plays.
	SoundBytes int64

	// Data is the folder for what a player keeps; it is made when the first
	// thing is kept. Without one nothing can be.
	Data string
	// Idle, if not nil, is called when no request has come for a few seconds.
	Idle func()
	// Now is the clock that tells when a take was taken; nil for time.Now.
	Now func() time.Time
}

const usualSoundBytes = 48 << 20

// New returns a bench that is ready to serve.
func New(o Options) (*Bench, error) {
	shared, err := site.New(files)
	if err != nil {
		return nil, err
	}
	if o.SoundBytes == 0 {
		o.SoundBytes = usualSoundBytes
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	var kept *takes.Folder
	if o.Data != "" {
		kept = takes.In(o.Data)
	}
	return &Bench{site: shared, sounds: newSoundShelf(o.SoundBytes), takes: take.New(shared, kept, o.Now), shelf: practising.New(shared, o.Data, kept, o.Now), idle: o.Idle}, nil
}

// Handler returns the bench's pages behind its guard, for requests that come
// to one of the hosts: "127.0.0.1:7878", "localhost:7878".
func (b *Bench) Handler(hosts []string) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.serveBench)
	mux.HandleFunc("GET /choose/{field}", b.serveChooser)
	for _, f := range deliver.Formats() {
		mux.HandleFunc("GET /line."+f.Name, b.serveLine(f))
	}
	mux.HandleFunc("GET /paper", b.servePaper)
	mux.HandleFunc("GET /paper/{picture}", b.servePaper)
	b.takes.Route(mux)
	b.shelf.Route(mux)
	mux.HandleFunc("GET /sound/{part}", b.serveSound)
	mux.HandleFunc("GET /assets/{name}", b.site.ServeAsset)
	mux.HandleFunc("/", b.serveNothing)
	guard := guarded(mux, hosts)
	if b.idle != nil {
		return whenIdle(guard, b.idle)
	}
	return guard
}

// serveNothing answers a request that no page takes.
func (b *Bench) serveNothing(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		allow := "GET, HEAD"
		if take.Receives(r.URL.Path) {
			allow += ", POST"
		}
		w.Header().Set("Allow", allow)
		http.Error(w, "this address only answers GET and HEAD", http.StatusMethodNotAllowed)
		return
	}
	b.site.Missing(w, r)
}
