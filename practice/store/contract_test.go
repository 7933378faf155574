package store_test

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"heddle/exercise"
	"heddle/neck"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/store"
)

var thursday = time.Date(2026, 11, 26, 19, 30, 0, 0, time.FixedZone("", 3600))

func demo(title string) practice.Item {
	return practice.Item{Title: title, Tags: []string{"outside", "vamp"}, Note: "from the workshop", Made: thursday, From: "the bench",
		Spec: exercise.Spec{Home: "G minor pentatonic", Superimpose: []string{"semitone up"}, Groups: []int{3, 3}, Fret: 10, Tempo: 100}}
}

// contract is what every Store promises. Stores opens two owners of one fresh
// place.
func contract(t *testing.T, stores func(t *testing.T) (mine, others store.Store)) {
	for name, check := range map[string]func(t *testing.T, mine, others store.Store){
		"keeps items and finds them":       keepsItems,
		"changes and drops items":          changesItems,
		"adds runs and strikes them":       addsRuns,
		"works standings out in any order": foldsRuns,
		"keeps owners apart":               keepsOwnersApart,
		"keeps answers":                    keepsAnswers,
		"keeps the plan of a day":          keepsPlans,
		"changes nothing when it fails":    failsWhole,
	} {
		t.Run(name, func(t *testing.T) {
			mine, others := stores(t)
			check(t, mine, others)
		})
	}
}

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func kept(t testing.TB, s store.Store, it practice.Item) practice.Item {
	t.Helper()
	is, _, err := s.Keep(t.Context(), it)
	if err != nil {
		t.Fatal(err)
	}
	return is
}

func keepsItems(t *testing.T, mine, _ store.Store) {
	ctx := t.Context()
	want := kept(t, mine, demo("Thursday's vamp"))
	got := must[practice.Item](t)(mine.Item(ctx, want.ID))
	if diff := cmp.Diff(want, got, cmpopts.EquateEmpty(), cmpopts.EquateApproxTime(0)); diff != "" {
		t.Error(diff)
	}
	if again, added, err := mine.Keep(ctx, want); err != nil || added || again.ID != want.ID {
		t.Errorf("kept twice: %v %v %v", again.ID, added, err)
	}
	blues := demo("Blues in A")
	blues.Tags, blues.Note = nil, "für später"
	kept(t, mine, blues)
	for words, titles := range map[string][]string{
		"vamp": {"Thursday's vamp"}, "blu": {"Blues in A"}, "fur": {"Blues in A"}, "workshop thurs": {"Thursday's vamp"}, "nothing": nil, `"quoted" (`: nil, "": {"Thursday's vamp", "Blues in A"},
	} {
		var found []string
		for _, it := range must[[]practice.Item](t)(mine.Find(ctx, words)) {
			found = append(found, it.Title)
		}
		if !slices.Equal(found, titles) {
			t.Errorf("%q finds %q, want %q", words, found, titles)
		}
	}
	if _, err := mine.Item(ctx, 999); !errors.Is(err, store.ErrNone) {
		t.Errorf("an item that is not there: %v", err)
	}
	var input *pitch.InputError
	if _, _, err := mine.Keep(ctx, practice.Item{Title: "no spec"}); !errors.As(err, &input) {
		t.Errorf("an item without a spec: %v", err)
	}
}

func changesItems(t *testing.T, mine, _ store.Store) {
	ctx := t.Context()
	it := kept(t, mine, demo("Thursday's vamp"))
	it.Title, it.Tags, it.Scope, it.Target = "Friday's vamp", []string{"new"}, practice.Keys, 120
	if err := mine.Change(ctx, it); err != nil {
		t.Fatal(err)
	}
	if found := must[[]practice.Item](t)(mine.Find(ctx, "friday new")); len(found) != 1 || found[0].Target != 120 {
		t.Errorf("%+v", found)
	}
	if found := must[[]practice.Item](t)(mine.Find(ctx, "thursday")); len(found) != 0 {
		t.Errorf("%+v", found)
	}
	r := must[*practice.Record](t)(mine.Record(ctx))
	if len(r.Standings) != 12 || r.Standings[0].Unit != (practice.Unit{Item: it.ID, Key: "G", Fret: 10}) {
		t.Errorf("%d units, the first %+v", len(r.Standings), r.Standings[0].Unit)
	}
	if err := mine.Drop(ctx, it.ID, thursday); err != nil {
		t.Fatal(err)
	}
	if on, all := must[[]practice.Item](t)(mine.Items(ctx, false)), must[[]practice.Item](t)(mine.Items(ctx, true)); len(on) != 0 || len(all) != 1 || all[0].Dropped.IsZero() {
		t.Errorf("%d on the shelf, %d in all", len(on), len(all))
	}
	if err := mine.Restore(ctx, it.ID); err != nil {
		t.Fatal(err)
	}
	if on := must[[]practice.Item](t)(mine.Items(ctx, false)); len(on) != 1 || !on[0].Dropped.IsZero() {
		t.Errorf("%+v", on)
	}
	if err := mine.Drop(ctx, 999, thursday); !errors.Is(err, store.ErrNone) {
		t.Errorf("dropping what is not there: %v", err)
	}
}

func runOf(it practice.Item, at time.Time, went practice.Went) practice.Run {
	return practice.Run{Unit: practice.Unit{Item: it.ID, Key: "G", Fret: 10}, At: at, Seconds: 90, Tempo: 60, Went: went}
}

func addsRuns(t *testing.T, mine, _ store.Store) {
	ctx := t.Context()
	it := kept(t, mine, demo("Thursday's vamp"))
	marked := runOf(it, thursday, practice.Clean)
	marked.Marks = &practice.Marks{Right: 1, Wrong: 1, Notes: []practice.NoteMark{
		{Right: true, TimingMS: -4, Moves: []practice.Move{{Kind: practice.Region, Value: "9-12"}}},
		{Moves: []practice.Move{{Kind: practice.Region, Value: "9-12"}, {Kind: practice.Join, Value: "0-1"}}},
	}}
	ids := must[[]int64](t)(mine.Add(ctx, marked, runOf(it, thursday.Add(time.Hour), practice.Shaky)))
	elsewhere := runOf(it, thursday.AddDate(0, 0, 1), practice.Relaxed)
	elsewhere.Unit.Key, elsewhere.Unit.Fret, elsewhere.Take = "A", 12, "20261127-183000"
	must[[]int64](t)(mine.Add(ctx, elsewhere))
	list := must[[]practice.Run](t)(mine.Runs(ctx, store.Which{Marks: true}))
	if len(list) != 3 || list[0].Unit != elsewhere.Unit || list[0].Take != elsewhere.Take || list[2].Marks == nil || !list[2].At.Equal(thursday) {
		t.Fatalf("%+v", list)
	}
	if diff := cmp.Diff(marked.Marks, list[2].Marks); diff != "" {
		t.Error(diff)
	}
	if again := must[[]int64](t)(mine.Add(ctx, list[2])); again[0] != ids[0] {
		t.Error("a run was added twice")
	}
	r := must[*practice.Record](t)(mine.Record(ctx))
	if c := r.Moves[practice.Move{Kind: practice.Region, Value: "9-12"}]; c != (practice.Count{Tries: 2, Misses: 1}) {
		t.Errorf("%+v", c)
	}
	if len(r.Days) != 2 || r.Days[0] != (practice.DayTotal{Day: "2026-11-26", Seconds: 180, Runs: 2}) {
		t.Errorf("%+v", r.Days)
	}
	if err := mine.Strike(ctx, ids[0]); err != nil {
		t.Fatal(err)
	}
	r = must[*practice.Record](t)(mine.Record(ctx))
	if len(r.Moves) != 0 || r.Days[0].Runs != 1 || r.Standings[0].Runs != 1 || r.Standings[0].Latest != practice.Shaky {
		t.Errorf("after striking: %+v", r)
	}
	if list := must[[]practice.Run](t)(mine.Runs(ctx, store.Which{Item: it.ID, Most: 5})); len(list) != 3 || !list[2].Struck {
		t.Errorf("a struck run is gone: %+v", list)
	}
	if err := errors.Join(mine.Strike(ctx, ids[0])); err != nil {
		t.Errorf("striking twice: %v", err)
	}
	if err := mine.Strike(ctx, 999); !errors.Is(err, store.ErrNone) {
		t.Errorf("striking what is not there: %v", err)
	}
}

// However runs come in, the standings are those of all runs in order.
func foldsRuns(t *testing.T, mine, _ store.Store) {
	ctx := t.Context()
	one, two := kept(t, mine, demo("in order")), kept(t, mine, demo("out of order"))
	var at []time.Time
	for i := range 8 {
		at = append(at, thursday.Add(time.Duration(i*31)*time.Hour))
	}
	for i, when := range at {
		must[[]int64](t)(mine.Add(ctx, runOf(one, when, practice.Went(i%4+1))))
	}
	for _, i := range []int{5, 2, 7, 0, 1, 6, 4, 3} {
		must[[]int64](t)(mine.Add(ctx, runOf(two, at[i], practice.Went(i%4+1))))
	}
	r := must[*practice.Record](t)(mine.Record(ctx))
	a, b := r.Standings[0], r.Standings[1]
	b.Item = a.Item
	if diff := cmp.Diff(a, b, cmpopts.EquateApproxTime(0), cmpopts.EquateApprox(0, 1e-12)); diff != "" {
		t.Error(diff)
	}
}

func keepsOwnersApart(t *testing.T, mine, others store.Store) {
	ctx := t.Context()
	theirs := kept(t, others, demo("theirs"))
	run := must[[]int64](t)(others.Add(ctx, runOf(theirs, thursday, practice.Clean)))[0]
	for what, err := range map[string]error{
		"item": second(mine.Item(ctx, theirs.ID)), "drop": mine.Drop(ctx, theirs.ID, thursday), "restore": mine.Restore(ctx, theirs.ID), "change": mine.Change(ctx, theirs),
		"strike": mine.Strike(ctx, run), "add": second(mine.Add(ctx, runOf(theirs, thursday, practice.Clean))),
	} {
		if !errors.Is(err, store.ErrNone) {
			t.Errorf("%s of another owner: %v", what, err)
		}
	}
	if found := must[[]practice.Item](t)(mine.Find(ctx, "theirs")); len(found) != 0 {
		t.Error("found another owner's item")
	}
	if r := must[*practice.Record](t)(mine.Record(ctx)); len(r.Items)+len(r.Standings)+len(r.Days) != 0 {
		t.Errorf("%+v", r)
	}
	if list := must[[]practice.Run](t)(mine.Runs(ctx, store.Which{})); len(list) != 0 {
		t.Error("another owner's runs")
	}
	same := theirs
	if mineToo, added, err := mine.Keep(ctx, same); err != nil || !added || mineToo.ID == theirs.ID {
		t.Errorf("the same item for two owners: %v, %v", added, err)
	}
}

func second[T any](_ T, err error) error { return err }

func keepsAnswers(t *testing.T, mine, others store.Store) {
	ctx := t.Context()
	topic := practice.Topic{Kind: practice.NameSpot, Pair: "G minor pentatonic", Region: "9-12"}
	for i, right := range []bool{true, false, true} {
		err := mine.Answer(ctx, store.Answer{Topic: topic, Spot: neck.Spot{String: 2, Fret: 10}, At: thursday.Add(time.Duration(i) * time.Minute), Right: right, Seconds: 1.5, Within: 2})
		if err != nil {
			t.Fatal(err)
		}
	}
	r := must[*practice.Record](t)(mine.Record(ctx))
	if len(r.Topics) != 1 || r.Topics[0].Asked != 3 || r.Topics[0].Right != 2 || r.Topics[0].Known != 2 || r.Topics[0].Seconds != 3 || r.Topics[0].Reps == 0 {
		t.Errorf("%+v", r.Topics)
	}
	want := []practice.SpotTotal{{Kind: practice.NameSpot, Spot: neck.Spot{String: 2, Fret: 10}, Asked: 3, Right: 2, Seconds: 3}}
	if diff := cmp.Diff(want, must[[]practice.SpotTotal](t)(mine.Asked(ctx))); diff != "" {
		t.Error(diff)
	}
	if len(must[[]practice.SpotTotal](t)(others.Asked(ctx))) != 0 {
		t.Error("another owner's answers")
	}
}

func keepsPlans(t *testing.T, mine, others store.Store) {
	ctx := t.Context()
	if _, _, err := mine.Begun(ctx, "2026-11-26"); !errors.Is(err, store.ErrNone) {
		t.Errorf("%v", err)
	}
	plan := &practice.Plan{Day: "2026-11-26", Minutes: 30, Blocks: []practice.Block{{Kind: practice.Rest, Minutes: 30, Why: "rest"}}}
	for done := range 2 {
		if err := mine.Begin(ctx, plan, done); err != nil {
			t.Fatal(err)
		}
	}
	got, done, err := mine.Begun(ctx, "2026-11-26")
	if err != nil || done != 1 || cmp.Diff(plan, got) != "" {
		t.Errorf("%+v, %d done, %v", got, done, err)
	}
	if _, _, err := others.Begun(ctx, "2026-11-26"); !errors.Is(err, store.ErrNone) {
		t.Errorf("another owner's plan: %v", err)
	}
}

func failsWhole(t *testing.T, mine, _ store.Store) {
	ctx := t.Context()
	it := kept(t, mine, demo("Thursday's vamp"))
	missing := runOf(it, thursday, practice.Clean)
	missing.Unit.Item = 999
	if _, err := mine.Add(ctx, runOf(it, thursday, practice.Clean), missing); !errors.Is(err, store.ErrNone) {
		t.Errorf("%v", err)
	}
	stopped, stop := context.WithCancel(ctx)
	stop()
	if _, err := mine.Add(stopped, runOf(it, thursday, practice.Clean)); err == nil {
		t.Error("added after it was stopped")
	}
	if r := must[*practice.Record](t)(mine.Record(ctx)); len(r.Days) != 0 || r.Standings[0].Runs != 0 {
		t.Errorf("%+v", r)
	}
}

func TestSQLiteKeepsTheContract(t *testing.T) {
	contract(t, func(t *testing.T) (mine, others store.Store) {
		s := opened(t, t.TempDir())
		return s.Of(store.Player), s.Of("somebody else")
	})
}

func opened(t testing.TB, dir string) *store.SQLite {
	t.Helper()
	s, err := store.Open(t.Context(), dir, thursday)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}
