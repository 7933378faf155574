package bench

import (
	"fmt"
	"html/template"
	"net/http"
	"runtime"
	"time"

	"heddle/bench/takes"
	"heddle/deliver"
)

// A Bench serves the pages. Make one with New.
type Bench struct {
	templates *template.Template
	assets    *assets
	sounds    *soundShelf
	renders   turns         // sound and other long work
	live      turns         // takes that are followed while they are played
	takes     *takes.Folder // nil where nothing can be kept
	now       func() time.Time
	idle      func()
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
	assets, err := loadAssets()
	if err != nil {
		return nil, fmt.Errorf("reading the pages' scripts and styles: %w", err)
	}
	templates, err := parsePages(assets)
	if err != nil {
		return nil, fmt.Errorf("reading the pages: %w", err)
	}
	if o.SoundBytes == 0 {
		o.SoundBytes = usualSoundBytes
	}
	b := &Bench{
		templates: templates, assets: assets, sounds: newSoundShelf(o.SoundBytes), renders: newTurns(runtime.NumCPU()),
		live: newTurns(takePagesAtOnce), now: o.Now, idle: o.Idle,
	}
	if o.Data != "" {
		b.takes = takes.In(o.Data)
	}
	if b.now == nil {
		b.now = time.Now
	}
	if b.takes != nil {
		b.takes.Sweep(b.now())
	}
	return b, nil
}

// Handler returns the bench's pages behind its guard, for requests that come
// to one of the hosts: "127.0.0.1:7878", "localhost:7878".
func (b *Bench) Handler(hosts []string) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.serveBench)
	for _, f := range deliver.Formats() {
		mux.HandleFunc("GET /line."+f.Name, b.serveLine(f))
	}
	mux.HandleFunc("GET /paper", b.servePaper)
	mux.HandleFunc("GET /paper/{picture}", b.servePaper)
	mux.HandleFunc("GET /take", b.serveTake)
	mux.HandleFunc("POST /take", b.serveMark)
	mux.HandleFunc("GET /take/live", b.serveLive)
	mux.HandleFunc("POST /takes", b.serveKeep)
	mux.HandleFunc("GET /takes", b.serveKeptList)
	mux.HandleFunc("GET /takes/{name}", b.serveKept)
	mux.HandleFunc("GET /takes/{name}/{file}", b.serveKeptFile)
	mux.HandleFunc("GET /takes/{name}/delete", b.serveDelete)
	mux.HandleFunc("POST /takes/{name}/delete", b.serveDeleted)
	mux.HandleFunc("GET /sound/{part}", b.serveSound)
	mux.HandleFunc("GET /assets/{name}", b.serveAsset)
	mux.HandleFunc("/", b.serveNothing)
	guard := guarded(mux, hosts)
	if b.idle != nil {
		return whenIdle(guard, b.idle)
	}
	return guard
}
