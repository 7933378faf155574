package take

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"math"
	"net/http"
	"net/url"
	"strings"
	"sync"
	"time"

	"github.com/coder/websocket"

	"heddle/audio"
	"heddle/bench/site"
	"heddle/hear"
	"heddle/pitch"
)

// The live socket: the page sends a take while it is played and gets each
// verdict back as soon as there is one.
//
// The address is the exercise with two more keys, rate and first-bar. Each
// binary message is a block of samples: one channel of 32-bit floats, lowest
// byte first. Each text message from the server is a liveNews. A text message
// from the page ends the take: the last verdicts follow, then the server closes.
// The page keeps the take itself, so a lost socket loses only the verdicts.

// Limits of the live socket.
const (
	mostLiveBytes = 64 << 10 // of one message: a third of a second at 48 kHz
	liveSilenceS  = 10       // how long the socket waits for the next block
	liveWriteS    = 5        // how long a page may take to accept news
)

// A liveNews is a message to the page.
type liveNews struct {
	Marks []hear.NoteMark `json:"marks"`
	FedS  float64         `json:"fed_s"` // seconds of the take that were heard when the verdicts were given
}

// serveLive follows a take while it is played.
func (ps *Pages) serveLive(w http.ResponseWriter, r *http.Request) {
	t, err := readTake(r)
	if err == nil && (t.rate == 0 || !t.clicked) {
		err = &pitch.InputError{What: "live take", Want: rateKey + " and " + firstBarKey + " beside the exercise"}
	}
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	if !ownOrigin(r) {
		http.Error(w, "another site may not listen here", http.StatusForbidden)
		return
	}
	follower, err := hear.NewFollower(t.rate, t.Exercise, t.firstBarS)
	if err != nil {
		site.Refuse(w, r, err)
		return
	}
	select {
	case ps.live <- struct{}{}:
	default:
		site.Refuse(w, r, site.ErrBusy)
		return
	}
	leave := sync.OnceFunc(func() { <-ps.live })
	defer leave()
	socket, err := websocket.Accept(w, r, nil) // checks the Origin once more
	if err != nil {
		return // Accept has answered
	}
	defer socket.CloseNow()
	socket.SetReadLimit(mostLiveBytes)
	live := liveTake{socket: socket, follower: follower, rate: t.rate}
	status, reason := live.follow(r.Context())
	leave() // a page may take seconds to agree that the socket is closed
	socket.Close(status, reason)
}

// ownOrigin reports whether a request says that it comes from a page of the
// host it was sent to. A browser always says where a socket is opened from.
func ownOrigin(r *http.Request) bool {
	origin, err := url.Parse(r.Header.Get("Origin"))
	return err == nil && origin.Host != "" && strings.EqualFold(origin.Host, r.Host)
}

// A liveTake is one take being followed.
type liveTake struct {
	socket   *websocket.Conn
	follower *hear.Follower
	rate     int
	fed      int // samples
	samples  []float32
}

// follow reads blocks until the take ends, and says how to close.
func (l *liveTake) follow(ctx context.Context) (websocket.StatusCode, string) {
	lastSound := time.Now()
	for {
		kind, message, err := l.read(ctx, lastSound.Add(liveSilenceS*time.Second))
		switch {
		case err != nil && websocket.CloseStatus(err) >= 0:
			return websocket.StatusNormalClosure, ""
		case errors.Is(err, websocket.ErrMessageTooBig):
			return websocket.StatusMessageTooBig, "a block is larger than 64 KiB"
		case err != nil: // the page has gone, or the time for silence is over
			return websocket.StatusNormalClosure, ""
		case kind == websocket.MessageText:
			l.tell(ctx, l.follower.Finish()) // an error means that the page has gone
			return websocket.StatusNormalClosure, ""
		}
		if reason := l.take(message); reason != "" {
			return websocket.StatusInvalidFramePayloadData, reason
		}
		if len(l.samples) > 0 { // an empty block is silence too
			lastSound = time.Now()
		}
		l.fed += len(l.samples)
		if float64(l.fed) > audio.LongestS*float64(l.rate) {
			return websocket.StatusPolicyViolation, "the take is longer than ten minutes"
		}
		if err := l.tell(ctx, l.follower.Feed(l.samples)); err != nil {
			return websocket.StatusPolicyViolation, "the page did not read its verdicts in time"
		}
	}
}

func (l *liveTake) read(ctx context.Context, until time.Time) (websocket.MessageType, []byte, error) {
	// A context that ends would drop the socket before the reason is sent.
	timer := time.AfterFunc(time.Until(until), func() {
		l.socket.Close(websocket.StatusPolicyViolation, "no sound came for ten seconds")
	})
	defer timer.Stop()
	return l.socket.Read(ctx)
}

// take unpacks a block, or says what is wrong with it.
func (l *liveTake) take(message []byte) (reason string) {
	if len(message)%4 != 0 {
		return "a block is not a whole number of 32-bit samples"
	}
	l.samples = l.samples[:0]
	for ; len(message) > 0; message = message[4:] {
		x := math.Float32frombits(binary.LittleEndian.Uint32(message))
		if math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) {
			return "a sample is not a number"
		}
		l.samples = append(l.samples, max(-1, min(1, x)))
	}
	return ""
}

// tell sends verdicts, where there are any.
func (l *liveTake) tell(ctx context.Context, marks []hear.NoteMark) error {
	if len(marks) == 0 {
		return nil
	}
	news, err := json.Marshal(liveNews{Marks: marks, FedS: float64(l.fed) / float64(l.rate)})
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(ctx, liveWriteS*time.Second)
	defer cancel()
	return l.socket.Write(ctx, websocket.MessageText, news)
}
