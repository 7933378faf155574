// Package practising serves the pages Shelf, Today, Ask and Progress. What to
// practise is worked out by package practice and kept by its store; nothing is
// computed here. Everything works without scripts, and a GET changes nothing.
package practising

import (
	"context"
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"strconv"
	"sync"
	"time"

	"heddle/bench/site"
	"heddle/bench/takes"
	"heddle/practice/store"
)

// Pages serves the pages.
type Pages struct {
	site *site.Site
	data string        // the data folder; empty where nothing can be kept
	take *takes.Folder // kept takes, which become runs; nil where there are none
	now  func() time.Time

	opening sync.Mutex
	db      *store.SQLite // opened by the first request, so that the start is quick
}

// New returns the pages of a site. Shelf and log are in the data folder.
func New(s *site.Site, data string, folder *takes.Folder, now func() time.Time) *Pages {
	return &Pages{site: s, data: data, take: folder, now: now}
}

// Route adds the pages to a server's.
func (ps *Pages) Route(mux *http.ServeMux) {
	for pattern, serve := range map[string]handler{
		"GET /shelf": ps.serveShelf, "GET /shelf/keep": ps.serveKeep, "POST /shelf": ps.serveKept, "POST /shelf/demo": ps.serveDemo,
		"GET /shelf/{id}": ps.serveItem, "POST /shelf/{id}": ps.serveChange, "POST /shelf/{id}/drop": ps.serveDrop, "POST /shelf/{id}/restore": ps.serveRestore,
		"GET /practise/{id}": ps.servePractise, "POST /practise/{id}": ps.serveRun, "POST /log/takes/{name}": ps.serveTakeRun, "POST /log/strike/{run}": ps.serveStrike,
		"GET /today": ps.serveToday, "POST /today": ps.serveBegin, "POST /today/done": ps.serveDone,
		"GET /ask": ps.serveAsk, "POST /ask": ps.serveAnswer,
		"GET /progress": ps.serveProgress, "GET /progress/{file}": ps.serveProgressFile,
	} {
		mux.HandleFunc(pattern, ps.with(serve))
	}
}

// Close closes the database, if it was opened.
func (ps *Pages) Close() error {
	ps.opening.Lock()
	defer ps.opening.Unlock()
	if ps.db == nil {
		return nil
	}
	return ps.db.Close()
}

// A handler answers a request with the player's store.
type handler func(w http.ResponseWriter, r *http.Request, mine store.Store) error

// with opens the store and answers with the reason where a handler fails.
func (ps *Pages) with(serve handler) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		mine, err := ps.store(r.Context())
		if err == nil {
			err = serve(w, r, mine)
		}
		switch {
		case err == nil:
		case errors.Is(err, store.ErrNone):
			ps.site.Missing(w, r)
		default:
			site.Refuse(w, r, err)
		}
	}
}

// errNoFolder says why nothing can be kept.
var errNoFolder = errors.New("there is no folder to keep things in; start heddle with --data and a folder")

func (ps *Pages) store(ctx context.Context) (store.Store, error) {
	if ps.data == "" {
		return nil, errNoFolder
	}
	ps.opening.Lock()
	defer ps.opening.Unlock()
	if ps.db == nil {
		db, err := store.Open(context.WithoutCancel(ctx), ps.data, ps.now())
		if err != nil {
			return nil, err
		}
		ps.db = db
	}
	return ps.db.Of(store.Player), nil
}

// A page is what every page of the group shows.
type page struct {
	Title    string
	Here     string // which of the pages it is
	SetAside string // a damaged file that was found
}

func (ps *Pages) page(title, here string) page { return page{title, here, ps.db.SetAside} }

// see answers a form with the page to go to.
func see(w http.ResponseWriter, r *http.Request, address string) error {
	http.Redirect(w, r, address, http.StatusSeeOther)
	return nil
}

// id reads a number in a path.
func id(r *http.Request, name string) (int64, error) {
	n, err := strconv.ParseInt(r.PathValue(name), 10, 64)
	if err != nil {
		return 0, store.ErrNone
	}
	return n, nil
}

// form reads a form that was sent.
func form(r *http.Request) (url.Values, error) {
	if err := r.ParseForm(); err != nil {
		return nil, err
	}
	return r.PostForm, nil
}

// query escapes nothing: what exercise.Spec wrote is escaped already.
func query(s string) template.URL { return template.URL(s) }
