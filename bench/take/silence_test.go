package take

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"
)

func TestThePageIsToldThatNoSoundCame(t *testing.T) {
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		socket, err := websocket.Accept(w, r, nil)
		if err != nil {
			t.Error(err)
			return
		}
		defer socket.CloseNow()
		live := liveTake{socket: socket}
		if _, _, err := live.read(r.Context(), time.Now()); err == nil {
			t.Error("a message was read after the time for silence")
		}
	}))
	defer server.Close()
	socket, _, err := websocket.Dial(t.Context(), "ws"+strings.TrimPrefix(server.URL, "http"), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer socket.CloseNow()
	if _, _, err := socket.Read(t.Context()); websocket.CloseStatus(err) != websocket.StatusPolicyViolation || !strings.Contains(err.Error(), "ten seconds") {
		t.Errorf("closed with %v", err)
	}
}
