package bench

import (
	"net/http"
	"sync"
	"time"
)

// idleAfter is how long after the last request the bench counts as idle.
const idleAfter = 5 * time.Second

// whenIdle calls idle once when no request has been open for idleAfter.
func whenIdle(next http.Handler, idle func()) http.Handler {
	var mu sync.Mutex
	open := 0
	timer := time.AfterFunc(idleAfter, idle)
	count := func(by int) {
		mu.Lock()
		defer mu.Unlock()
		if open += by; open == 0 {
			timer.Reset(idleAfter)
		} else {
			timer.Stop()
		}
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		count(1)
		defer count(-1)
		next.ServeHTTP(w, r)
	})
}
