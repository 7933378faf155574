module heddle

go 1.26.0

require (
	github.com/alecthomas/kong v1.17.0
	github.com/google/go-cmp v0.7.0
	github.com/rogpeppe/go-internal v1.16.0
	gitlab.com/gomidi/midi/v2 v2.3.16
	pgregory.net/rapid v1.3.0
)

require (
	golang.org/x/sys v0.26.0 // indirect
	golang.org/x/tools v0.26.0 // indirect
)
