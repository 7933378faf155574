package surface

import (
	"strconv"
	"strings"
)

// signNames returns the signs of fonts/glyphs.txt by their SMuFL names.
func signNames() map[string]Sign {
	names := map[string]Sign{}
	for line := range strings.Lines(signList) {
		name, point, found := strings.Cut(strings.TrimSpace(line), " U+")
		if !found || strings.HasPrefix(name, "#") {
			continue
		}
		code, err := strconv.ParseUint(point, 16, 32)
		must(err)
		names[name] = Sign(code)
	}
	return names
}
