package main

import "testing"

// The places are those of the XDG Base Directory Specification 0.8 and, from
// common practice, of the other systems.
func TestWhatIsKeptGoesToThePlaceForAPersonsData(t *testing.T) {
	for _, c := range []struct {
		name, asked, system string
		env                 map[string]string
		want                string
	}{
		{"asked for", "here", "linux", map[string]string{"XDG_DATA_HOME": "/xdg", "HOME": "/home/ann"}, "here"},
		{"set", "", "linux", map[string]string{"XDG_DATA_HOME": "/xdg", "HOME": "/home/ann"}, "/xdg/heddle"},
		{"set for another system too", "", "darwin", map[string]string{"XDG_DATA_HOME": "/xdg", "HOME": "/Users/ann"}, "/xdg/heddle"},
		{"relative, which is not valid", "", "linux", map[string]string{"XDG_DATA_HOME": "xdg", "HOME": "/home/ann"}, "/home/ann/.local/share/heddle"},
		{"unset", "", "linux", map[string]string{"HOME": "/home/ann"}, "/home/ann/.local/share/heddle"},
		{"macOS", "", "darwin", map[string]string{"HOME": "/Users/ann"}, "/Users/ann/Library/Application Support/heddle"},
		{"Windows", "", "windows", map[string]string{"HOME": "/home/ann", "LocalAppData": "/ann/local"}, "/ann/local/heddle"},
		{"nobody's", "", "linux", nil, ""},
	} {
		if got := dataFolder(c.asked, func(name string) string { return c.env[name] }, c.system); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
