package store_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"heddle/exercise"
	"heddle/internal/need"
	"heddle/pitch"
	"heddle/practice"
	"heddle/practice/chart"
	"heddle/practice/store"
)

// A damaged file is set aside whole, and a new one begun.
func TestADamagedFileIsSetAside(t *testing.T) {
	for what, spoil := range map[string]func(file []byte) []byte{
		"not a database": func([]byte) []byte { return []byte(strings.Repeat("no database at all ", 100)) },
		"overwritten": func(file []byte) []byte {
			copy(file[4096:], bytes.Repeat([]byte{0xa5}, 3*4096))
			return file
		},
	} {
		t.Run(what, func(t *testing.T) {
			dir := t.TempDir()
			s := opened(t, dir)
			kept(t, s.Of(store.Player), demo("Thursday's vamp"))
			s.Close()
			path := filepath.Join(dir, store.FileName)
			file, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			file = spoil(file)
			if err := os.WriteFile(path, file, 0o600); err != nil {
				t.Fatal(err)
			}
			s = opened(t, dir)
			if filepath.Base(s.SetAside) != "practice-damaged-20261126-183000.db" {
				t.Fatalf("set aside as %q", s.SetAside)
			}
			if aside, err := os.ReadFile(s.SetAside); err != nil || !bytes.Equal(aside, file) {
				t.Errorf("what was set aside is not the file that was there: %v", err)
			}
			if items := must[[]practice.Item](t)(s.Of(store.Player).Items(t.Context(), true)); len(items) != 0 {
				t.Error("items in a new file")
			}
		})
	}
}

// Files of every version that was ever written can be read. Each was made by
// the heddle of its time and holds the item "Thursday's vamp" and three runs.
func TestOldVersionsAreBroughtUpToDate(t *testing.T) {
	files, err := filepath.Glob("testdata/version*.db")
	if err != nil || len(files) == 0 {
		t.Fatalf("no files of older versions: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			dir := t.TempDir()
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, store.FileName), text, 0o600); err != nil {
				t.Fatal(err)
			}
			s := opened(t, dir)
			mine := s.Of(store.Player)
			items := must[[]practice.Item](t)(mine.Find(t.Context(), "thursday"))
			runs := must[[]practice.Run](t)(mine.Runs(t.Context(), store.Which{Marks: true}))
			if len(items) != 1 || len(runs) != 3 {
				t.Fatalf("%d items, %d runs", len(items), len(runs))
			}
			if _, err := exercise.Build(items[0].Spec); err != nil {
				t.Error(err)
			}
			if err := mine.Begin(t.Context(), &practice.Plan{Day: "2026-11-26"}, 0); err != nil {
				t.Error(err)
			}
			copies, err := filepath.Glob(filepath.Join(dir, store.FileName+".version*"))
			if err != nil || len(copies) != 1 {
				t.Errorf("copies from before: %q, %v", copies, err)
			}
		})
	}
}

// A file of a later version is left alone.
func TestANewerFileIsRefused(t *testing.T) {
	dir := t.TempDir()
	s := opened(t, dir)
	if err := store.Exec(s, "INSERT INTO goose_db_version (version_id, is_applied) VALUES (9999, 1)"); err != nil {
		t.Fatal(err)
	}
	s.Close()
	if _, err := store.Open(t.Context(), dir, thursday); err == nil || !strings.Contains(err.Error(), "newer heddle") {
		t.Errorf("%v", err)
	}
}

func TestABackupIsRestored(t *testing.T) {
	dir, ctx := t.TempDir(), t.Context()
	s := opened(t, dir)
	mine := s.Of(store.Player)
	it := kept(t, mine, demo("Thursday's vamp"))
	must[[]int64](t)(mine.Add(ctx, runOf(it, thursday, practice.Clean)))
	take := filepath.Join(dir, "takes", "20261126-183000")
	for path, text := range map[string]string{filepath.Join(take, "take.flac"): "sound", filepath.Join(dir, "takes", ".new-1", "take.flac"): "half"} {
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	var zipped bytes.Buffer
	if err := s.Backup(ctx, &zipped); err != nil {
		t.Fatal(err)
	}
	backup := filepath.Join(t.TempDir(), "backup.zip")
	if err := os.WriteFile(backup, zipped.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "elsewhere")
	if err := store.Restore(ctx, backup, to, thursday); err != nil {
		t.Fatal(err)
	}
	back := opened(t, to).Of(store.Player)
	if runs := must[[]practice.Run](t)(back.Runs(ctx, store.Which{})); len(runs) != 1 || len(must[[]practice.Item](t)(back.Find(ctx, "vamp"))) != 1 {
		t.Errorf("%+v", runs)
	}
	if sound, err := os.ReadFile(filepath.Join(to, "takes", "20261126-183000", "take.flac")); err != nil || string(sound) != "sound" {
		t.Errorf("%q, %v", sound, err)
	}
	entries, err := os.ReadDir(to)
	if err != nil || len(entries) > 4 { // the database, its two companions and the takes
		t.Errorf("%v, %v", entries, err)
	}
	var input *pitch.InputError
	if err := store.Restore(ctx, backup, dir, thursday); !errors.As(err, &input) {
		t.Errorf("restored over what was there: %v", err)
	}
}

// A file that is no backup leaves nothing behind, whatever it holds.
func TestWhatIsNotABackupIsRefused(t *testing.T) {
	file := func(names ...string) string {
		var b bytes.Buffer
		z := zip.NewWriter(&b)
		for _, name := range names {
			w, err := z.Create(name)
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprint(w, "text")
		}
		z.Close()
		path := filepath.Join(t.TempDir(), "backup.zip")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for what, path := range map[string]string{
		"nothing there": "nowhere.zip", "no archive": "sqlite_test.go", "empty": file(), "another file": file("practice.db", "letter.txt"),
		"outside": file("practice.db", "takes/../../out"), "damaged": file("practice.db"), "a folder": file("practice.db", "takes/"),
	} {
		dir := t.TempDir()
		var input *pitch.InputError
		if err := store.Restore(t.Context(), path, dir, thursday); !errors.As(err, &input) {
			t.Errorf("%s: %v", what, err)
		}
		if entries, err := os.ReadDir(dir); err != nil || len(entries) > 0 {
			t.Errorf("%s leaves %v, %v", what, entries, err)
		}
	}
}

// large is a log of 100,000 runs over 2,000 units, half of the newest marked.
func large(b *testing.B) store.Store {
	b.Helper()
	need.Long(b, "makes a log of 100,000 runs")
	mine := opened(b, b.TempDir()).Of(store.Player)
	var units []practice.Unit
	homes := []string{"G minor pentatonic", "A minor pentatonic", "C minor pentatonic", "E minor pentatonic", "D minor pentatonic"}
	for i := 0; len(units) < 2000; i++ {
		it := demo(fmt.Sprintf("line %d of the workshop", i))
		it.Spec.Home, it.Scope = homes[i%len(homes)], practice.All
		it = kept(b, mine, it)
		list := must[[]practice.Unit](b)(practice.Units(it.Spec, it.Scope))
		for _, u := range list {
			u.Item = it.ID
			units = append(units, u)
		}
	}
	units = units[:2000]
	var runs []practice.Run
	for i := range 100_000 {
		runs = append(runs, practice.Run{Unit: units[i*7919%len(units)], At: thursday.Add(time.Duration(i-100_000) * 8 * time.Minute), Seconds: 90, Tempo: 60 + float64(i%40), Went: practice.Went(i%4 + 1)})
	}
	must[[]int64](b)(mine.Add(b.Context(), runs...))
	return mine
}

// BenchmarkLargeLog holds the budgets of a log of 100,000 runs over 2,000
// units, on one core: plan 50 ms, progress 100 ms, search 10 ms.
func BenchmarkLargeLog(b *testing.B) {
	mine := large(b)
	b.Run("plan", func(b *testing.B) {
		for b.Loop() {
			r := must[*practice.Record](b)(mine.Record(b.Context()))
			if p := must[*practice.Plan](b)(practice.Today(r, practice.Asked{Day: thursday, Minutes: 60})); len(p.Blocks) == 0 {
				b.Fatal("no plan")
			}
		}
	})
	b.Run("progress", func(b *testing.B) {
		for b.Loop() {
			p := must[*practice.Progress](b)(store.Progress(b.Context(), mine, thursday))
			if len(chart.Pictures(p)) == 0 || len(p.Days) == 0 {
				b.Fatal("no progress")
			}
		}
	})
	b.Run("search", func(b *testing.B) {
		for b.Loop() {
			if found := must[[]practice.Item](b)(mine.Find(b.Context(), "workshop lin")); len(found) == 0 {
				b.Fatal("nothing found")
			}
		}
	})
	b.Run("add", func(b *testing.B) {
		items := must[[]practice.Item](b)(mine.Items(b.Context(), false))
		for b.Loop() {
			must[[]int64](b)(mine.Add(b.Context(), runOf(items[0], thursday, practice.Clean)))
		}
	})
}

// BenchmarkOpen is what a command waits for before it can begin.
func BenchmarkOpen(b *testing.B) {
	dir := b.TempDir()
	opened(b, dir).Close()
	for b.Loop() {
		s, err := store.Open(b.Context(), dir, thursday)
		if err != nil {
			b.Fatal(err)
		}
		s.Close()
	}
}
