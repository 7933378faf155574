package take_test

import (
	"bufio"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/coder/websocket"

	"heddle/bench"
	"heddle/bench/benchtest"
	"heddle/pitch"
)

// What the page is told while a take is played.
type news struct {
	Marks []struct {
		Index    int     `json:"index"`
		Verdict  string  `json:"verdict"`
		TimingMS float64 `json:"timing_ms"`
	} `json:"marks"`
	FedS float64 `json:"fed_s"`
}

// liveSocket opens the live socket of a take as a page of the bench does.
func liveSocket(t testing.TB, home string, p benchtest.Take, origin string) (*websocket.Conn, *http.Response, error) {
	t.Helper()
	address := fmt.Sprintf("ws%s/take/live?%s&rate=%d&first-bar=%g", strings.TrimPrefix(home, "http"), benchtest.LiveSpec, p.Rate, p.LeadS)
	header := http.Header{}
	if origin != "" {
		header.Set("Origin", origin)
	}
	return websocket.Dial(t.Context(), address, &websocket.DialOptions{HTTPHeader: header})
}

// A note's verdict comes within 60 ms of its second period, counted in the
// sound that had been heard when it fell.
const (
	verdictMS    = 60.0
	blockS       = 512.0 / 48000
	secondPeriod = 2.0
)

// A right note's verdict may be given on the note itself only: these many of a
// hundred must be right as they fall. The marks after the take know more.
const liveRightPercent = 90

func TestEachVerdictComesWithinSixtyMillisecondsOfTheNotesSecondPeriod(t *testing.T) {
	p := benchtest.Play(t, benchtest.LiveSpec, 0.5, nil)
	home := benchtest.Serve(t, bench.Options{})
	socket, _, err := liveSocket(t, home, p, home)
	if err != nil {
		t.Fatal(err)
	}
	defer socket.CloseNow()

	frames := int(blockS * float64(p.Rate))
	finished := make(chan struct{})
	var heard []news
	go func() {
		defer close(finished)
		for {
			_, message, err := socket.Read(t.Context())
			if err != nil {
				return
			}
			var n news
			if json.Unmarshal(message, &n) == nil {
				heard = append(heard, n)
			}
		}
	}()
	for at := 0; at < len(p.Samples); at += frames {
		if err := socket.Write(t.Context(), websocket.MessageBinary, benchtest.Block(p.Samples[at:min(at+frames, len(p.Samples))])); err != nil {
			t.Fatal(err)
		}
	}
	if err := socket.Write(t.Context(), websocket.MessageText, []byte("end")); err != nil {
		t.Fatal(err)
	}
	<-finished

	var bySignal []float64 // ms
	verdicts := map[int]string{}
	for _, n := range heard {
		for _, m := range n.Marks {
			_, again := verdicts[m.Index]
			verdicts[m.Index] = m.Verdict
			if again || m.Verdict == "missed" {
				continue
			}
			period := 1000 / pitch.Frequency(float64(p.Exercise.Notes[m.Index].Pitch.MIDI()))
			bySignal = append(bySignal, 1000*(n.FedS-p.OnsetsS[m.Index])-secondPeriod*period)
		}
	}
	right := 0
	for _, v := range verdicts {
		if v == "right" {
			right++
		}
	}
	if 100*right < liveRightPercent*len(p.Exercise.Notes) {
		t.Errorf("%d of %d notes are right as they are heard, want %d in a hundred", right, len(p.Exercise.Notes), liveRightPercent)
	}
	if len(bySignal) == 0 {
		t.Fatal("no verdict came")
	}
	slices.Sort(bySignal)
	worst := bySignal[len(bySignal)-1]
	t.Logf("%d verdicts, %d right: %.1f ms of sound after the second period in the middle, %.1f ms at the most", len(bySignal), right, bySignal[len(bySignal)/2], worst)
	if worst > verdictMS+1000*blockS {
		t.Errorf("a verdict came %.1f ms after its note's second period, want %g and a block", worst, verdictMS)
	}
}

func TestTheLiveSocketIsForPagesOfTheBenchAlone(t *testing.T) {
	p := benchtest.Play(t, benchtest.LiveSpec, 0, nil)
	home := benchtest.Serve(t, bench.Options{})
	for _, origin := range []string{"http://elsewhere.example", "", "http://127.0.0.1:1"} {
		socket, answer, err := liveSocket(t, home, p, origin)
		if err == nil {
			socket.CloseNow()
			t.Errorf("a page of %q may listen", origin)
			continue
		}
		if answer == nil || answer.StatusCode != http.StatusForbidden {
			t.Errorf("a page of %q is answered %v, want 403", origin, answer)
		}
	}
}

func TestTheLiveSocketClosesOnWhatIsNoSound(t *testing.T) {
	p := benchtest.Play(t, benchtest.LiveSpec, 0, nil)
	home := benchtest.Serve(t, bench.Options{})
	for name, c := range map[string]struct {
		message []byte
		want    websocket.StatusCode
	}{
		"half a sample":   {[]byte{1, 2, 3}, websocket.StatusInvalidFramePayloadData},
		"no number":       {[]byte{0, 0, 0xC0, 0x7F}, websocket.StatusInvalidFramePayloadData},
		"a block too big": {make([]byte, 100<<10), websocket.StatusMessageTooBig},
	} {
		socket, _, err := liveSocket(t, home, p, home)
		if err != nil {
			t.Fatal(err)
		}
		ctx := t.Context()
		if err := socket.Write(ctx, websocket.MessageBinary, c.message); err != nil {
			t.Fatal(err)
		}
		if _, _, err := socket.Read(ctx); websocket.CloseStatus(err) != c.want {
			t.Errorf("%s: closed with %v, want %v", name, err, c.want)
		}
	}
}

func TestOnlySoManyTakesAreFollowedAtOnce(t *testing.T) {
	p := benchtest.Play(t, benchtest.LiveSpec, 0, nil)
	home := benchtest.Serve(t, bench.Options{})
	for range 4 {
		socket, _, err := liveSocket(t, home, p, home)
		if err != nil {
			t.Fatal(err)
		}
		defer socket.CloseNow()
	}
	if socket, answer, err := liveSocket(t, home, p, home); err == nil {
		socket.CloseNow()
		t.Error("a fifth take is followed")
	} else if answer == nil || answer.StatusCode != http.StatusServiceUnavailable {
		t.Errorf("a fifth take is answered %v, want 503", answer)
	}
}

// A page whose take has ended gives its place up before it has agreed to close
// the socket: a place is free as soon as the server says why it closes.
func TestAPlaceIsFreeAtOnceWhenATakeEnds(t *testing.T) {
	p := benchtest.Play(t, benchtest.LiveSpec, 0, nil)
	home := benchtest.Serve(t, bench.Options{})
	for range 3 {
		socket, _, err := liveSocket(t, home, p, home)
		if err != nil {
			t.Fatal(err)
		}
		defer socket.CloseNow()
	}
	host := strings.TrimPrefix(home, "http://")
	last, err := net.Dial("tcp", host)
	if err != nil {
		t.Fatal(err)
	}
	defer last.Close()
	// The key is the example of RFC 6455, section 1.3.
	fmt.Fprintf(last, "GET /take/live?%s&rate=%d&first-bar=0 HTTP/1.1\r\nHost: %s\r\nOrigin: %s\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n"+
		"Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n", benchtest.LiveSpec, p.Rate, host, home)
	from := bufio.NewReader(last)
	answer, err := http.ReadResponse(from, nil)
	if err != nil || answer.StatusCode != http.StatusSwitchingProtocols {
		t.Fatalf("the fourth take: %v, %v", answer, err)
	}
	// A masked binary frame of three bytes is no whole sample.
	if _, err := last.Write([]byte{0x82, 0x83, 0, 0, 0, 0, 1, 2, 3}); err != nil {
		t.Fatal(err)
	}
	if frame, err := from.ReadByte(); err != nil || frame != 0x88 {
		t.Fatalf("the server answers %#x, %v, want a close frame", frame, err)
	}
	socket, answer, err := liveSocket(t, home, p, home)
	if err != nil {
		t.Fatalf("another take: %v, %v", answer, err)
	}
	socket.CloseNow()
}
