package take

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"strings"
	"syscall"
	"time"

	"heddle/audio"
	"heddle/bench/site"
	"heddle/bench/takes"
)

// To keep a take, the page or its form sends the recording again. It goes into the
// folder takes of the data folder together with its marks. Nothing else on these
// pages writes to the disk.

// errNoFolder says why nothing can be kept.
var errNoFolder = errors.New("there is no folder to keep takes in; start heddle with --data and a folder")

// serveKeep keeps a recording sent as the body itself or as the file of a form. It
// answers with the take's own page or, for the page's script, with the list of kept
// takes.
func (ps *Pages) serveKeep(w http.ResponseWriter, r *http.Request) {
	t, err := readTake(r)
	if err != nil {
		ps.refuse(w, r, t, err)
		return
	}
	_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(readTime)) // where it can't be set, the usual one applies
	name, err := ps.keep(r, t)
	if err != nil {
		if r.Context().Err() != nil {
			return // the client has gone
		}
		ps.notKept(w, r, t, err)
		return
	}
	w.Header().Set("Location", "/takes/"+name)
	if r.Header.Get(partHeader) == "" {
		w.WriteHeader(http.StatusSeeOther)
		return
	}
	ps.write(w, r, "kept-part", http.StatusCreated, &page{Kept: ps.keptList("", keptBeside)})
}

// keep writes the recording of a request and marks the file it wrote, so that the
// marks match what will be heard.
func (ps *Pages) keep(r *http.Request, t *request) (name string, err error) {
	if ps.folder == nil {
		return "", errNoFolder
	}
	sent, err := sentIn(r)
	if err != nil {
		return "", err
	}
	recording := &site.TurnReader{Reader: sent.recording, Context: r.Context(), Turns: ps.site.Renders}
	defer recording.Done()
	source, err := audio.Decode(recording)
	if err != nil {
		return "", err
	}
	now := ps.now()
	draft, err := ps.folder.Draft(now)
	if err != nil {
		return "", err
	}
	defer draft.Drop()
	if err := draft.Record(source); err != nil {
		return "", err
	}
	take, err := markDraft(r.Context(), draft, t)
	if err != nil {
		return "", err
	}
	take.Taken, take.Label = now, sent.label
	return draft.Keep(take)
}

func markDraft(ctx context.Context, draft *takes.Draft, t *request) (*takes.Take, error) {
	written, err := draft.Recording()
	if err != nil {
		return nil, err
	}
	defer written.Close()
	report, err := markTake(ctx, written, t)
	if err != nil {
		return nil, err
	}
	take := &takes.Take{
		Spec: t.Exercise.Spec, Sentence: t.Exercise.Sentence, Written: takes.Keys(t.Exercise),
		Report: report,
	}
	if t.clicked {
		take.FirstBarS = &t.firstBarS
	}
	return take, nil
}

// notKept explains why a take was not kept, on the page that it was sent from.
func (ps *Pages) notKept(w http.ResponseWriter, r *http.Request, t *request, err error) {
	status, says := keepFault(err)
	if r.Header.Get(partHeader) != "" {
		http.Error(w, says, status)
		return
	}
	p, pageErr := newPage(t, site.RoomOf(r).Music)
	if pageErr != nil {
		site.Refuse(w, r, pageErr)
		return
	}
	p.Fault = says
	ps.write(w, r, "take.html", status, p)
}

// keepFault returns the status and the text for a take that can't be kept.
func keepFault(err error) (status int, says string) {
	var disk *takes.NotKeptError
	switch {
	case errors.Is(err, errNoFolder):
		return http.StatusNotFound, "Not kept: " + err.Error() + "."
	case errors.Is(err, syscall.ENOSPC):
		return http.StatusInsufficientStorage, "Not kept: the disk is full. Make room, then keep it again."
	case errors.As(err, &disk), errors.Is(err, fs.ErrPermission):
		return http.StatusInsufficientStorage, fmt.Sprintf("Not kept: %v.", err)
	}
	status, says = fault(err)
	return status, "Not kept: " + strings.TrimSuffix(says, ".") + "."
}
