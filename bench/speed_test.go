package bench_test

import (
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"heddle/bench"
	"heddle/internal/need"
)

// The load: every exercise differs from the one before.
func loadQuery(i int) string {
	keys := []string{"C", "F", "Bb", "Eb", "Ab", "Db", "F#", "B", "E", "A", "D", "G"}
	away := []string{"semitone up", "semitone down", "minor third up", "minor third down", "tritone"}
	sizes := []string{"2,2", "3,3", "3,2", "4,4", "1,1"}
	directions := []string{"down", "up"}
	q := url.Values{}
	q.Set("home", keys[i%12]+" minor pentatonic")
	q.Set("superimpose", away[i/12%5])
	q.Set("groups", sizes[i/60%5])
	q.Set("direction", directions[i/300%2])
	q.Set("tempo", fmt.Sprint(40+i/600%300))
	return q.Encode()
}

// BenchmarkChangedWord is one changed word as the server sees it: read, build,
// draw what is in sight, answer. 500 a second on two cores leave 4 ms for each.
func BenchmarkChangedWord(b *testing.B) {
	h := handler(b)
	i := 0
	for b.Loop() {
		if w := ask(h, "GET", "/?"+loadQuery(i), "Heddle-Shown", "none"); w.Code != http.StatusOK {
			b.Fatalf("%s: status %d", loadQuery(i), w.Code)
		}
		i++
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "exercises/s")
}

// BenchmarkLoad asks over loopback for one different exercise after another,
// from as many readers as there are cores, and reports how many a second and
// how long the slowest of a hundred takes. The budget is 500 a second with p99
// under 50 ms on two free cores.
func BenchmarkLoad(b *testing.B) {
	bch, err := bench.New(bench.Options{})
	if err != nil {
		b.Fatal(err)
	}
	server := httptest.NewUnstartedServer(nil)
	server.Config.Handler = bch.Handler(bench.Hosts(server.Listener.Addr()))
	server.Start()
	defer server.Close()
	defer debug.SetGCPercent(debug.SetGCPercent(bench.GCPercent))
	var next atomic.Int64
	var mu sync.Mutex
	var times []time.Duration
	b.ResetTimer()
	b.RunParallel(func(pb *testing.PB) {
		client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 1}}
		var own []time.Duration
		for pb.Next() {
			r, err := http.NewRequest("GET", server.URL+"/?"+loadQuery(int(next.Add(1))), nil)
			if err != nil {
				b.Error(err)
				return
			}
			r.Header.Set("Heddle-Shown", "none")
			begun := time.Now()
			response, err := client.Do(r)
			if err != nil {
				b.Error(err)
				return
			}
			if _, err := drain(response); err != nil || response.StatusCode != http.StatusOK {
				b.Errorf("status %d, %v", response.StatusCode, err)
				return
			}
			own = append(own, time.Since(begun))
		}
		mu.Lock()
		times = append(times, own...)
		mu.Unlock()
	})
	b.StopTimer()
	if len(times) == 0 {
		b.Fatal("nothing was asked")
	}
	slices.Sort(times)
	b.ReportMetric(float64(len(times))/b.Elapsed().Seconds(), "exercises/s")
	b.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
	b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "p50-ms")
}

var requests = flag.Int("requests", 2000, "how many exercises TestMemoryStaysFlat asks for; the budget is stated for 100000")

// TestMemoryStaysFlat asks for many different exercises and sounds and holds
// what stays in memory to what the shelf of sounds may keep.
func TestMemoryStaysFlat(t *testing.T) {
	const shelf = 8 << 20
	b, err := bench.New(bench.Options{SoundBytes: shelf})
	if err != nil {
		t.Fatal(err)
	}
	h := b.Handler([]string{host})
	inUse := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	rounds := *requests
	if !need.All() {
		rounds = min(rounds, 300)
	}
	for i := range 100 { // fills what is filled once
		ask(h, "GET", "/?"+loadQuery(i))
	}
	before := inUse()
	for i := range rounds {
		if w := ask(h, "GET", "/?"+loadQuery(i), "Heddle-Shown", "none"); w.Code != http.StatusOK {
			t.Fatalf("%s: status %d", loadQuery(i), w.Code)
		}
		if i%200 == 0 {
			if w := ask(h, "GET", "/sound/line?bars=1&"+loadQuery(i)); w.Code != http.StatusOK {
				t.Fatalf("sound of %s: status %d", loadQuery(i), w.Code)
			}
		}
	}
	after := inUse()
	t.Logf("%d exercises: %.1f MB before, %.1f MB after", rounds, float64(before)/1e6, float64(after)/1e6)
	if after > before+shelf+4<<20 {
		t.Errorf("memory grew from %d to %d bytes", before, after)
	}
}

// BenchmarkStart is everything from nothing to the first page's last byte, but
// for the system's own start of a program. The budget is 150 ms.
func BenchmarkStart(b *testing.B) {
	for b.Loop() {
		if w := ask(handler(b), "GET", "/"); w.Code != http.StatusOK {
			b.Fatalf("status %d", w.Code)
		}
	}
}
